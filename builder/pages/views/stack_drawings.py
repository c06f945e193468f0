"""The stack of boards and the other screwed places: in section at true length, and apart."""

from math import ceil, fsum

from builder.compute.geometry.orientation import lies
from builder.frozen import value_class
from builder.model.build import Build
from builder.pages.blocks import Block, Illustration, Section
from builder.pages.drawing import Drawing, Item, Line, Rectangle, Shape, Words
from builder.pages.drawings.text_size import lines_within
from builder.pages.sheet_input import SheetInput
from builder.pages.views.layers import Held, Slab, held_places
from builder.pages.views.part_words import steps_of_parts
from builder.rounding import rounded

_WIDTH = 100.0
_SCALE = 2.0  # mm of the drawing for a mm
_AXIS = 17.0  # mm from the left, where the screw is
_HALF = 13.0  # mm that a layer reaches to each side before it is cut short
_LABELS = 36.0  # mm from the left, where the words begin
_TYPE = 3.3
_ROW = 4.4  # mm between words
_APART = 5.0  # mm between layers that are drawn apart
# Head diameter and height over thread diameter, as for the silhouettes of the screws.
_HEADS = {
    "socket": (1.85, 1.0),
    "cap": (1.85, 1.0),
    "button": (1.9, 0.55),
    "pan": (1.9, 0.75),
    "countersunk": (1.85, 0.55),
    "none": (1.0, 0.0),
}


@value_class(frozen=True, slots=True)
class Label:
    """Words beside a height that they belong to."""

    at: float
    words: str


def _spread(labels: list[Label], top: float) -> list[tuple[Label, float]]:
    """Heights of the words, from the top down, none nearer to the next than its lines need."""
    ordered = sorted(labels, key=lambda n: n.at)
    out: list[tuple[Label, float]] = []
    y = top
    for label in ordered:
        y = max(y, label.at)
        out.append((label, y))
        y += _ROW * len(_lines_of(label))
    return out


def _lines_of(label: Label) -> list[str]:
    """The words in lines that stay on the page."""
    return lines_within(label.words, _TYPE, _WIDTH - _LABELS - 1.0)


def _label_items(labels: list[Label], top: float, edge: float) -> tuple[list[Item], float]:
    """Words with their lines, and the lowest of them."""
    items: list[Item] = []
    placed = _spread(labels, top)
    for label, y in placed:
        items.append(Line(((edge, label.at), (_LABELS - 1.0, y)), "lead", width=0.18))
        for k, line in enumerate(_lines_of(label)):
            items.append(Words(_LABELS, y + 0.35 * _TYPE + _ROW * k, line, _TYPE))
    ends = (y + _ROW * (len(_lines_of(label)) - 1) for label, y in placed)
    return items, max(ends, default=top)


def _hatched(x: float, y: float, width: float, height: float, way: int) -> list[Item]:
    """A cut layer with the thin slanting lines of a section (ISO 128-50), its ends cut short."""
    path, step = "", 3.0
    for k in range(1, ceil((width + height) / step)):
        a, b = k * step, k * step - height
        (x0, y0), (x1, y1) = (min(a, width), max(a - width, 0.0)), (max(b, 0.0), min(a, height))
        if way < 0:
            x0, x1 = width - x0, width - x1
        path += f"M{x + x0:.1f} {y + y0:.1f}L{x + x1:.1f} {y + y1:.1f}"
    return [
        Rectangle(x, y, width, height, "paper"),
        Shape(path, "lead"),
        *_faces(x, y, width, height),
    ]


def _faces(x: float, y: float, width: float, height: float) -> list[Item]:
    return [Line(((x, y), (x + width, y))), Line(((x, y + height), (x + width, y + height)))]


def _slab_items(slab: Slab, y: float, height: float, way: int) -> list[Item]:
    left, width = _AXIS - _HALF, 2 * _HALF
    if slab.board:
        return [Rectangle(left, y, width, height, "fill")]
    if "mount" in slab.what:
        return [Rectangle(_AXIS - 5.0, y, 10.0, height, "fill", radius=min(1.5, height / 2))]
    if "nut" in slab.what or "spacer" in slab.what or "washer" in slab.what:
        return [Rectangle(_AXIS - 5.0, y, 10.0, height, "pad")]
    return _hatched(left, y, width, height, way)


def _screw_items(held: Held, foot: float) -> list[Item]:
    """The screw at true length, its head below; a thread is two thin lines within (ISO 6410-1)."""
    thread = held.thread * _SCALE
    wide, high = (k * thread for k in _HEADS.get(held.head, _HEADS["pan"]))
    top = foot - held.length * _SCALE
    if held.head == "countersunk":
        top += high
    items: list[Item] = [Rectangle(_AXIS - thread / 2, top, thread, foot - top, "screw")]
    inner = thread * 0.4
    for x in (_AXIS - inner, _AXIS + inner):
        items.append(Line(((x, top), (x, foot)), "lead", width=0.18))
    if high:
        items.append(Rectangle(_AXIS - wide / 2, foot, wide, high, "screw", radius=0.4))
    return items


def _lies_down(build: Build, board: str) -> str:
    """What a picture from the side does not show of a board: that it lies upside down."""
    fitted = build.parts.get(board)
    return ", face down" if fitted is not None and lies(fitted).down else ""


def _screws(build: Build, held: Held) -> str:
    """The screws; with the word that the picture stands on its head where they come from above."""
    places = {f.key: f.use.at.z for f in build.parts.values() if f.use.at is not None}
    turned = ", from above: up is drawn down" if held.is_from_above(places) else ""
    return f"{held.said}{turned}"


def _what(build: Build, slab: Slab) -> str:
    own = f"{slab.board}{_lies_down(build, slab.board)}"
    name = f"{slab.what} ({own})" if slab.board else slab.what
    return f"{name}, {rounded(slab.high - slab.low, 1)} mm"


def _into_items(held: Held, foot: float) -> tuple[list[Item], list[Label]]:
    """What takes the thread, as deep as it is; and where the screw ends."""
    low = foot - held.passed * _SCALE
    end = foot - held.length * _SCALE
    depth = held.depth if held.depth is not None else max(held.length - held.passed, 1.0)
    tall = depth * _SCALE
    items: list[Item] = [Rectangle(_AXIS - 7.0, low - tall, 14.0, tall, "phantom")]
    said = f"{rounded(held.depth, 1)} mm deep" if held.depth is not None else "depth not stated"
    past = held.length - held.passed
    labels = [Label(low - tall / 2, f"{held.into or 'thread'}, {said}")]
    labels.append(Label(end, f"screw ends {rounded(past, 1)} mm past the layers"))
    if held.behind:
        labels.append(Label(low - tall, f"behind it: {held.behind}"))
    return items, labels


def _one_section(build: Build, held: Held, top: float) -> tuple[list[Item], float]:
    """One place with its heading above it; and where it ends."""
    depth = held.depth if held.depth is not None else 1.0
    reach = max(held.passed + depth, held.length) * _SCALE
    foot = top + 7.0 + reach
    items: list[Item] = [
        Words(1.0, top + 3.8, f"{held.place}: {_screws(build, held)}", 3.6, tone="strong")
    ]
    into, labels = _into_items(held, foot)
    items += into
    for k, slab in enumerate(held.slabs):
        y, height = foot - slab.high * _SCALE, (slab.high - slab.low) * _SCALE
        items += _slab_items(slab, y, height, 1 if k % 2 else -1)
        labels.append(Label(y + height / 2, _what(build, slab)))
    items += _screw_items(held, foot)
    high = _HEADS.get(held.head, _HEADS["pan"])[1] * held.thread * _SCALE
    items.append(Line(((_AXIS, top + 5.5), (_AXIS, foot + high + 2.0)), "axis", width=0.18))
    said, lowest = _label_items(labels, top + 8.0, _AXIS + _HALF + 1.0)
    return [*items, *said], max(foot + high, lowest) + 6.0


def stack_section(sheet: SheetInput) -> Drawing | None:
    """All screwed places in section, at twice their size; None where no screw says its layers."""
    found = [h for h in held_places(sheet.build) if h.slabs]
    items: list[Item] = []
    y = 0.0
    for held in found:
        made, y = _one_section(sheet.build, held, y)
        items += made
    if not items:
        return None
    places = "; ".join(
        f"{h.place}: {', '.join(s.what for s in h.slabs)}, into {h.into}" for h in found
    )
    alt = f"Screwed places in section at twice their size, the head below. {places}."
    return Drawing(f"{sheet.build.name}-section", _WIDTH, y, tuple(items), alt)


def _apart_words(sheet: SheetInput, slab: Slab, steps: dict[str, str], no: int) -> str:
    step = f", step {steps[slab.board]}" if slab.board in steps else ""
    return f"{no}  {slab.board or slab.what}{_lies_down(sheet.build, slab.board)}{step}"


def stack_apart(sheet: SheetInput) -> Drawing | None:
    """The place with most layers pulled apart along its screw, in the order in which they go on."""
    held = next((h for h in held_places(sheet.build) if any(s.board for s in h.slabs)), None)
    if held is None:
        return None
    steps = steps_of_parts(sheet)
    tall = fsum(s.high - s.low for s in held.slabs) * _SCALE + _APART * (len(held.slabs) + 1)
    items: list[Item] = []
    labels: list[Label] = []
    y = 3.0
    nut = 2.0 * _SCALE
    items.append(Rectangle(_AXIS - 5.0, y, 10.0, nut, "pad"))
    count = len(held.slabs)
    labels.append(Label(y + nut / 2, f"{count + 2}  {held.into or 'thread'}"))
    y += nut + _APART
    for no, slab in reversed(list(enumerate(held.slabs, 2))):
        height = (slab.high - slab.low) * _SCALE
        items += _slab_items(slab, y, height, 1 if no % 2 else -1)
        labels.append(Label(y + height / 2, _apart_words(sheet, slab, steps, no)))
        y += height + _APART
    foot = y + held.length * _SCALE
    items += _screw_items(held, foot)
    labels.append(Label(y + 4.0, f"1  screw, {_screws(sheet.build, held)}"))
    head = _HEADS.get(held.head, _HEADS["pan"])[1] * held.thread * _SCALE
    items.insert(0, Line(((_AXIS, 0.0), (_AXIS, foot + head + 3.0)), "axis", width=0.18))
    said, lowest = _label_items(labels, 3.0, _AXIS + _HALF + 1.0)
    order = ", then ".join(w.words.partition("  ")[2] for w in sorted(labels, key=lambda n: -n.at))
    alt = f"The {held.place} apart, in the order in which it goes together: {order}."
    bottom = max(foot + head + 4.0, lowest + 3.0, tall)
    return Drawing(f"{sheet.build.name}-apart", _WIDTH, bottom, (*items, *said), alt)


def stack_drawings(sheet: SheetInput) -> Section:
    """Section and apart; empty where no screw says what it holds."""
    cut, apart = stack_section(sheet), stack_apart(sheet)
    blocks: list[Block] = []
    if cut is not None:
        caption = (
            "Each screw with what it holds, heights at twice their size; plates are cut short at both"
            " sides. The head is drawn below."
        )
        blocks.append(Illustration(cut, caption, "stack-section"))
    if apart is not None:
        caption = (
            "The stack apart: what goes on what, from 1 on, with the step that fixes each board."
        )
        blocks.append(Illustration(apart, caption, "stack-apart"))
    return Section("stack", "Stack", tuple(blocks))
