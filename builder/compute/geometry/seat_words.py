"""Where a part sits, as somebody finds it with a rule: from the middle of the frame, seen from above."""

from builder.compute.geometry.plate_words import level_words
from builder.compute.joints.bench_pieces import mm
from builder.model.build import Build, Fitted
from builder.model.values.lengths_text import Position


def _from_middle(seat: Position) -> str:
    """`40 mm in front and 15 mm left of the frame's middle`."""
    along = "in front" if seat.x > 0 else "behind"
    across = "left" if seat.y > 0 else "right"
    ways = [f"{mm(abs(seat.x))} {along}"] if seat.x else []
    ways += [f"{mm(abs(seat.y))} {across}"] if seat.y else []
    if not ways:
        return "at the frame's middle"
    behind_alone = not seat.y and seat.x < 0
    return f"{' and '.join(ways)} {'' if behind_alone else 'of '}the frame's middle"


def seat_words(build: Build, fitted: Fitted) -> str:
    """Where a part or each of its pieces sits, as the end of 'in its place'; '' where nobody says it.
    How high is said by the plates of the frame.

    One place of several pieces is the middle of them all.
    """
    level = level_words(build, fitted)
    where = _over_the_middle(fitted)
    return f", {level}{where}" if level else where


def _over_the_middle(fitted: Fitted) -> str:
    """Where it sits, seen from above."""
    if fitted.use.each_at:
        return f", {'; '.join(map(_from_middle, fitted.use.each_at))}"
    if fitted.use.at is None:
        return ""
    several = "their middle " if fitted.use.count > 1 else ""
    return f", {several}{_from_middle(fitted.use.at)}"
