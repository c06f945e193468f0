"""The small picture of a build on pages over all builds: its own, else its arms and discs from above."""

from builder.pages.blocks import Thumbnail
from builder.pages.drawing import Circle, Drawing, Item, Line
from builder.pages.summaries.summary import Summary

_SIDE = 24.0  # mm of the square that is drawn on
_EDGE = 1.0  # mm that is left free around
_ARM = 1.0  # mm, the width of a line that is an arm
_NOSE = 2.5  # mm, the length of the arrow head at the nose


def small_picture(summary: Summary, row: str = "") -> tuple[Thumbnail, ...]:
    """The picture that a build's sheet begins with, small; nothing where there is none and no motor
    has a place. `row` tells the pictures of a build apart where a page shows more of them.
    """
    if len(summary.picture) == 2:
        address, words = summary.picture
        return (Thumbnail(address, words),)
    if not summary.rotors:
        return ()
    return (Thumbnail(drawing=from_rotors(summary, row)),)


def from_rotors(summary: Summary, row: str = "") -> Drawing:
    """Arms and discs from above, nose up: left is left, and all to one scale."""
    rotors = summary.rotors
    reach = max(max(abs(x), abs(y)) + radius for x, y, radius in rotors)
    middle = _SIDE / 2.0
    scale = (middle - _EDGE) / reach
    arms: list[Item] = []
    circles: list[Item] = []
    for forward, left, radius in rotors:
        place = (middle - scale * left, middle - scale * forward)
        arms.append(Line(((middle, middle), place), "arm", width=_ARM))
        circles.append(Circle(*place, scale * radius))
    tip = middle - _NOSE
    sides = ((middle - 1.5, middle), (middle, tip), (middle + 1.5, middle))
    nose = Line(sides, "accent", width=0.5)
    count = len(rotors)
    words = f"{summary.title} from above, nose up: {count} propellers, to scale."
    name = "-".join(filter(None, (summary.name, "small", row)))
    return Drawing(name, _SIDE, _SIDE, (*arms, *circles, nose), words)
