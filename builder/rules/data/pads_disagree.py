"""Pads whose places and sizes cannot be together.

Checks: the gap to the next pad is less than the distance of their middles. What the gap leaves is no
less than the narrow side of the pad. No pad lies at two edges of one side of a board.
Why: the tip of the iron, the solder and the drawing are taken from these. An order of pads that is
wrong puts the iron on a neighbour.
Example: a gap of 5 mm between pads that lie 2 mm apart.
Mend: look at the board, and correct the one that is wrong.
Source: the figures themselves
"""

from collections import Counter
from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Fitted
from builder.model.source.electrical import Pad, Sides
from builder.rules.compare import clash
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
_ROUNDED = assumed("statements/size")
_LOOK = "Look at the board, and correct the one that is wrong."


def _room(name: str, pad: Pad, at: Where) -> Iterator[Outcome]:
    pitch, gap, size = pad.pitch, pad.gap, pad.pad_size
    if pitch is None or gap is None:
        return
    left = pitch.value - gap.value
    least = min(size.along) if size is not None else 0.0
    if left > 0.0 and least <= left + _ROUNDED:
        yield Judged()
        return
    if left <= 0.0:
        text = say(
            "{}: a gap of {} does not go into a pitch of {}.",
            name,
            given(gap.value, "m"),
            given(pitch.value, "m"),
        )
        yield clash(text, _LOOK, at.at("gap"), at.at("pitch"))
        return
    text = say(
        "{}: a pitch of {} and a gap of {} leave less than its {}.",
        name,
        given(pitch.value, "m"),
        given(gap.value, "m"),
        given(least, "m"),
    )
    yield clash(text, _LOOK, at.at("pad_size"), at.at("pitch"))


def _edges(fitted: Fitted) -> Iterator[Outcome]:
    edges, at = fitted.part.edges, fitted.shelf_where.at("edges")
    for sides, where in ((edges, at), (edges.under, at.at("under"))):
        named = [(n, side) for side in Sides.model_fields for n in getattr(sides, side)]
        many = Counter(n for n, _ in named)
        twice = [n for n, count in many.items() if count > 1]
        for name in twice:
            last = [side for n, side in named if n == name][-1]
            text = f"{name} of {fitted.key} lies at its edges {many[name]} times."
            yield Found(text, "Name each pad once, where it lies.", where.at(last))
        if named and not twice:
            yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.parts.values():
        for name, pad in fitted.part.pads.items():
            at = fitted.shelf_where.at("pads", name)
            yield from _room(f"{fitted.key}.{name}", pad, at)
        yield from _edges(fitted)
