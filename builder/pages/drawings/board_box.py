"""A board of the wiring drawing: its name, the arrow to its front, its contacts with their place."""

from math import cos, fsum, radians, sin

from builder.pages.drawing import Anchor, Circle, Item, Line, Rectangle, Shape, Words
from builder.pages.drawings.boards import Pin
from builder.pages.drawings.layout import Box, Slot
from builder.pages.drawings.text_size import mono_width, words_width

NAME = 3.2  # mm, type of boards
PAD = 2.7  # mm, type of contacts with wires
PLACE = 2.4  # mm, type of places
FREE = 2.3  # mm, type of contacts without wires: its ink fits into one step of the layout
_EDGE = 1.8  # mm from a board's rim to its words
_ARROW = 5.0  # mm kept for the arrow on each side of the name


def place_words(pin: Pin, at_rim: str, *, turned: bool = False) -> str:
    """Where a contact lies, if that is not plainly the rim it is drawn at: socket and position,
    edge, underside.

    Of a board that is turned or turned over every contact says its own edge, as the pinout calls
    it.
    """
    place = pin.place
    if place.socket:
        return f"{place.socket}-{place.position}" + (" under" if place.under else "")
    edge = "" if place.edge in (None, at_rim) else str(place.edge)
    edge += " edge" if edge and turned else ""
    return " ".join(filter(None, (edge, "under" if place.under else "")))


def rims(box: Box) -> tuple[str, str]:
    """The board's edges that are drawn left and right and need no word.

    None for a board that is turned or turned over, and none for boards at the sides, which show one
    edge anyway.
    """
    return ("left", "right") if box.board.middle and box.board.plain else ("", "")


def _turned(box: Box) -> bool:
    return box.board.middle and not box.board.plain


def _row_width(pin: Pin, at_rim: str, turned: bool) -> float:
    size = PAD if pin.wires else FREE
    words = place_words(pin, at_rim, turned=turned)
    return mono_width(pin.contact.pad, size) + (words_width(words, PLACE) + 1.2 if words else 0.0)


def width_of(box: Box) -> float:
    """The width in mm that a board needs for its words."""
    rows = [
        max((_row_width(s.pin, rim, _turned(box)) for s in slots), default=0.0)
        for slots, rim in zip((box.left, box.right), rims(box), strict=True)
    ]
    between = 4.0 if all(rows) else 1.0
    head = words_width(box.board.name, NAME) + (2 * _ARROW if box.board.middle else 0.0)
    return max(
        fsum(rows) + between + 2 * _EDGE, head + 2.0, words_width(box.board.note, PLACE) + 2.0
    )


def arrow(x: float, y: float, turn: float = 0.0) -> list[Item]:
    """An arrow to a board's front, 4 mm long, around a point; turned clockwise by so many degrees
    from up.
    """
    sine, cosine = sin(radians(turn)), cos(radians(turn))
    ahead, aside = (sine, -cosine), (cosine, sine)

    def at(forward: float, right: float) -> tuple[float, float]:
        return x + forward * ahead[0] + right * aside[0], y + forward * ahead[1] + right * aside[1]

    tip, left, right = at(2.0, 0.0), at(0.4, -1.1), at(0.4, 1.1)
    places = [f"{px:.1f} {py:.1f}" for px, py in (tip, left, right)]
    path = f"M{'L'.join(places)}Z"
    return [Line((at(-2.0, 0.0), at(0.4, 0.0)), width=0.4), Shape(path, "solid")]


def _contact(slot: Slot, rim: str, turned: bool, x: float, inward: int) -> list[Item]:
    """A contact at the rim: a dot for each wire, its name, its place."""
    pin, name = slot.pin, slot.pin.contact.pad
    anchor: Anchor = "start" if inward > 0 else "end"
    size = PAD if pin.wires else FREE
    items: list[Item] = []
    heights = [y for _, y in slot.wires]
    if len(heights) > 1:
        items.append(Line(((x, heights[0]), (x, heights[-1])), width=1.0))
    items += [Circle(x, y, 0.8, "pad") for y in heights] or [Circle(x, slot.y, 0.45, "pad")]
    baseline = slot.y + 0.35 * size
    items.append(
        Words(
            x + inward * _EDGE, baseline, name, size, anchor, "mono" if pin.wires else "mono soft"
        )
    )
    words = place_words(pin, rim, turned=turned)
    if words:
        at = x + inward * (_EDGE + mono_width(name, size) + 1.2)
        small = PLACE if pin.wires else FREE
        items.append(Words(at, slot.y + 0.35 * small, words, small, anchor, "soft"))
    return items


def board_items(box: Box, x: float, width: float) -> list[Item]:
    """A board with its left upper corner at `x` and its own top."""
    height, title = box.bottom - box.top, box.board.part.name
    items: list[Item] = [
        Rectangle(x, box.top, width, height, "fill", 1.2, title=title),
        Words(x + width / 2, box.top + 4.4, box.board.name, NAME, "middle", "strong"),
    ]
    if box.board.middle:
        items += arrow(x + 3.2, box.top + 3.4, box.board.lies.yaw or 0.0)
    if box.board.note:
        items.append(Words(x + width / 2, box.top + 7.2, box.board.note, PLACE, "middle", "soft"))
    for slots, rim, at, inward in (
        (box.left, rims(box)[0], x, 1),
        (box.right, rims(box)[1], x + width, -1),
    ):
        for slot in slots:
            items += _contact(slot, rim, _turned(box), at, inward)
    return items
