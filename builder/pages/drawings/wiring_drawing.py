"""The wiring drawing: boards with contacts in physical order, each wire in a lane, numbered and
named at both ends.
"""

from collections import Counter
from collections.abc import Sequence

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.pinout import letters
from builder.model.build import Build
from builder.pages.blocks import Block, Illustration
from builder.pages.drawing import Drawing, Item, Line, Words
from builder.pages.drawings.board_box import board_items, width_of
from builder.pages.drawings.boards import Boards, drawn_boards
from builder.pages.drawings.layout import STEP, Columns, columns
from builder.pages.drawings.routes import MARGIN, Banks, RoutePoint, Sizes, crossings, routes
from builder.pages.drawings.text_size import words_width

_LABEL = 2.4  # mm, type of a wire's number and colour
_AWAY = 1.4  # mm from a bank to a label


def colour_of(build: Build, join: Join) -> str:
    """A wire's colour as the build says, else as the maker of a fitted lead says; '' where nobody
    does.
    """
    if join.wire is None:
        return ""
    if join.wire.colour:
        return join.wire.colour
    if join.wire.lead == "fitted":
        for contact in (join.a, join.b):
            leads = build.parts[contact.part].part.leads
            if leads is not None and contact.pad in leads.names:
                at = leads.names.index(contact.pad)
                return leads.colours[at] if at < len(leads.colours) else ""
    return ""


def _labels(build: Build, boards: Boards) -> tuple[str, ...]:
    """For each wire its number and the letters of its colour."""
    return tuple(
        " ".join(filter(None, (str(i), letters(colour_of(build, join)))))
        for i, join in enumerate(boards.joins, 1)
    )


def _title(join: Join, label: str) -> str:
    """Number and letters of a wire, and its ends."""
    return f"{label}: {join.a} to {join.b}"


def wire_titles(build: Build, nets: Netlist) -> dict[str, Join]:
    """What each wire of the drawing is by its title."""
    boards = drawn_boards(build, nets)
    pairs = zip(boards.joins, _labels(build, boards), strict=True)
    return {_title(join, label): join for join, label in pairs}


def _layers(wires: Sequence[tuple[RoutePoint, ...]]) -> list[list[tuple[int, bool]]]:
    """Wires in layers within which none cross, and whether each crosses one of a layer below."""
    at: list[int] = []
    out: list[list[tuple[int, bool]]] = []
    for i, points in enumerate(wires):
        level = max((at[k] + 1 for k in range(i) if crossings((wires[k], points))), default=0)
        at.append(level)
        if level == len(out):
            out.append([])
        out[level].append((i, level > 0))
    return out


def _sort_key(line: Line) -> tuple[str, str]:
    return line.colour, line.dash


def _wires(
    build: Build, boards: Boards, labels: Sequence[str], wires: Sequence[tuple[RoutePoint, ...]]
) -> list[Item]:
    """Wires with their edges; one that crosses others breaks them where it passes over."""
    items: list[Item] = []
    for layer in _layers(wires):
        items += [Line(wires[i], "halo", "", 1.5) for i, over in layer if over]
        items += [Line(wires[i], "wire-edge", "", 0.95) for i, _ in layer]
        lines: list[Line] = []
        for i, _ in layer:
            join = boards.joins[i]
            colour, dash = colour_of(build, join), "" if join.by == "wire" else "1.2 0.8"
            title = _title(join, labels[i])
            lines.append(Line(wires[i], "" if colour else "soft", colour, 0.65, dash, title))
        lines.sort(key=_sort_key)
        items += lines  # wires of one look together
    return items


def _label(label: str, points: tuple[RoutePoint, ...]) -> list[Item]:
    """The label of a wire above both its ends."""
    items: list[Item] = []
    for (x, y), (toward, _) in ((points[0], points[1]), (points[-1], points[-2])):
        way = 1 if toward > x else -1
        items.append(Words(x + way * _AWAY, y - 0.65, label, _LABEL, "start" if way > 0 else "end"))
    return items


def _sizes(found: Columns, labels: Sequence[str]) -> Sizes:
    widths = [
        max((width_of(b) for b in column), default=0.0)
        for column in (found.left, found.middle, found.right)
    ]
    strip = max((words_width(label, _LABEL) for label in labels), default=0.0) + _AWAY + 1.2
    return Sizes(widths[0], widths[1], widths[2], strip)


def _notes(boards: Boards, wires: Sequence[tuple[RoutePoint, ...]]) -> tuple[str, ...]:
    """How many crossings, and how many of them lie between wires of one plug, which no placement
    takes away.
    """
    count = crossings(wires)
    notes = [f"{count} crossing" + ("" if count == 1 else "s")]
    plugs: dict[str, list[tuple[RoutePoint, ...]]] = {}
    for join, points in zip(boards.joins, wires, strict=True):
        if join.by == "plug":
            plugs.setdefault(str(join.where), []).append(points)
    within = sum(crossings(own) for own in plugs.values())
    if within:
        notes.append(f"{within} of them between wires of one plug")
    return tuple(notes)


def _all_items(
    build: Build, boards: Boards, found: Columns, sizes: Sizes, labels: Sequence[str]
) -> tuple[list[Item], tuple[tuple[RoutePoint, ...], ...], Banks]:
    wires, banks = routes(found, sizes)
    items = _wires(build, boards, labels, wires)
    for box in found.left:
        items += board_items(box, MARGIN, sizes.left)
    for box in found.middle:
        items += board_items(box, banks.left[1], sizes.middle)
    for box in found.right:
        items += board_items(box, banks.right[1], sizes.right)
    for label, points in zip(labels, wires, strict=True):
        items += _label(label, points)
    return items, wires, banks


def wiring_drawing(build: Build, nets: Netlist) -> Drawing:
    """All wires and plugs of a build.

    Wires carry a number and the letters of their colour (IEC 60757) at both ends, so that the
    drawing reads without colour. Dots without a wire are free contacts. `notes` says first how many
    crossings there are.
    """
    boards = drawn_boards(build, nets)
    found = columns(boards)
    labels = _labels(build, boards)
    sizes = _sizes(found, labels)
    items, wires, banks = _all_items(build, boards, found, sizes, labels)
    notes = _notes(boards, wires)
    bottom = (
        max([b.bottom for b in found.boxes] + [y for points in wires for _, y in points] + [STEP])
        + STEP
    )
    kinds = Counter(j.by for j in boards.joins)
    alt = (
        f"Wiring of {build.title}: {len(boards.boards)} boards, {kinds['wire']} wires and"
        f" {kinds['plug']} contacts of plugs, {notes[0]}. The tables below say the same in words."
    )
    return Drawing(
        f"wiring-{build.name}",
        banks.right[1] + sizes.right + MARGIN,
        bottom,
        tuple(items),
        alt,
        notes,
    )


def drawings_of(build: Build, nets: Netlist) -> list[Block]:
    """The wiring drawing as a block; none where nothing is wired."""
    if all(j.by == "inside" for j in nets.joins):
        return []
    drawing = wiring_drawing(build, nets)
    caption = (
        "All wires. Each has a number and the letters of its colour (IEC 60757) at both ends;"
        " broken lines are plugs, small dots free contacts. Boards in the middle are drawn as they"
        " are mounted, seen from above with the nose up; arrows point to a board's front. Motors"
        " whose corner is known are at their side of the aircraft. Boxes at the sides list"
        " contacts in their order; they do not show how a part is turned."
        f" {', '.join(drawing.notes)}."
    )
    return [Illustration(drawing, caption, "wiring-drawing", wide=True)]
