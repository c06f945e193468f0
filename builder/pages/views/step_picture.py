"""A picture for a step: the board as it lies, with the contacts of this step lit in their order, each
wire with its colour and letters and where it comes from, and the contacts beside them that solder
must not bridge to.
"""

from collections.abc import Sequence
from dataclasses import replace

from builder.compute.circuit.contacts import Join
from builder.compute.circuit.pinout import letters
from builder.compute.joints.joints import Joint
from builder.compute.order.steps.work_step import StepGroup
from builder.model.build import Build
from builder.pages.drawing import Again, Drawing, Item, KeptShapes, Line, Words
from builder.pages.drawings.text_size import words_width
from builder.pages.drawings.tip_on_pad import TipOnPad, nearest_tip, tip_on_pad
from builder.pages.drawings.wiring_drawing import colour_of
from builder.pages.sheet_input import SheetInput
from builder.pages.views.board_view import (
    TYPE,
    BoardView,
    PadPlace,
    board_seen,
    cross,
    words_inward,
)
from builder.pages.views.bodies import rotor_places
from builder.pages.views.check_picture import Probes, probe_items, probes_of
from builder.pages.views.mount_picture import (
    Base,
    base_above,
    base_side,
    is_of_stack,
    mount_picture,
    parts_set,
)
from builder.pages.views.plug_picture import Plugged, plug_items, plugged_of

_STUB = 3.6  # mm of wire that is drawn
_LINE = 4.3  # mm between the lines below the board
_GAP = 3.0  # mm between what stands in one line


class StepPictures:
    """Pictures of a page: each side of a board is drawn once, by the first step that needs it, and
    shown again by the others. Local to a page.
    """

    def __init__(self, sheet: SheetInput) -> None:
        self._sheet = sheet
        self._build = sheet.build
        self._bases: dict[str, Base] = {}
        self._views: dict[tuple[str, str], BoardView | None] = {}
        self._drawn: set[str] = set()
        self._tips: dict[TipOnPad, tuple[str, float]] = {}

    def view(self, board: str, side: str) -> BoardView | None:
        """A side of a board."""
        key = board, side
        if key not in self._views:
            part = board.split(".")[0]
            self._views[key] = board_seen(self._build, part, board, side)
        return self._views[key]

    def of(self, group: StepGroup) -> Drawing | None:
        """The picture of a step: of its joints at one side of one board, of its probes, or of what
        it mounts or plugs; None for all others.
        """
        joints = [s.joint for s in group.steps if s.joint is not None]
        if joints:
            return self._of_joints(group, joints)
        plugged = plugged_of(self._sheet, group)
        if plugged is not None:
            return self._of_plugs(plugged)
        probes = probes_of(self._sheet, group)
        return self._of_probes(probes) if probes is not None else self._of_mounting(group)

    def _shown(self, shape: KeptShapes) -> Item:
        """The shapes, or where they stand if a step before has drawn them."""
        first = shape.name not in self._drawn
        self._drawn.add(shape.name)
        return shape if first else Again(shape.name)

    def _tip(self, tip: TipOnPad, top: float) -> tuple[Item, float]:
        """The tip at scale below a height, or where it stands if a step before has drawn it."""
        shape, bottom = tip_on_pad(tip, f"t{len(self._tips)}", top)
        if tip not in self._tips:
            self._tips[tip] = shape.name, top
            return shape, bottom
        name, first = self._tips[tip]
        return Again(name, top - first), bottom

    def _of_joints(self, group: StepGroup, joints: Sequence[Joint]) -> Drawing | None:
        sides = {(j.board, j.side) for j in joints}
        if len(sides) != 1:
            return None
        view = self.view(joints[0].board, joints[0].side)
        if view is None or any(j.contact.pad not in view.pads for j in joints):
            return None
        lit, below = lit_items(self._build, view, joints)
        tip, _ = nearest_tip(self._build, group.steps)
        at_scale, bottom = self._tip(tip, round(below, 1))
        alt = f"{_alt(joints)}; tip {tip.size}"
        items = self._shown(view.shape), *lit, at_scale
        return Drawing("", view.width, bottom, items, alt)

    def _of_plugs(self, found: Plugged) -> Drawing | None:
        view = self.view(found.board, found.side)
        if view is None or any(pad not in view.pads for pad, _ in found.pairs):
            return None
        drawn, bottom = plug_items(view, found)
        met = ", ".join(f"{pad} {far.pad}" for pad, far in found.pairs)
        alt = f"{', '.join(found.words)}: {met}"
        return Drawing("", view.width, bottom, (self._shown(view.shape), *drawn), alt)

    def _of_probes(self, probes: Probes) -> Drawing | None:
        view = self.view(probes.board, probes.side)
        if view is None or not view.pads.keys() >= {probes.red, probes.black}:
            return None
        drawn, bottom = probe_items(view, probes)
        alt = f"{probes.board}: red on {probes.red}, black on {probes.black}"
        return Drawing("", view.width, bottom, (self._shown(view.shape), *drawn), alt)

    def _of_mounting(self, group: StepGroup) -> Drawing | None:
        keys = parts_set(self._sheet, group)
        if not keys or not rotor_places(self._build):
            return None
        name, make = "above", base_above
        if is_of_stack(self._sheet, keys):
            name, make = "side", base_side
        if name not in self._bases:
            self._bases[name] = make(self._sheet)
        base = self._bases[name]
        drawn = mount_picture(self._sheet, base, Again(base.shape.name), keys)
        if drawn is None:
            return None
        return replace(drawn, items=(self._shown(base.shape), *drawn.items[1:]))


def _wire(build: Build, join: Join) -> str:
    return letters(colour_of(build, join))


def _from(build: Build, joint: Joint, at: int) -> str:
    """Where the wires of a contact come from; with letters where it takes more than one."""
    pairs = list(zip(joint.wires, joint.others, strict=True))
    if len(pairs) == 1:
        return f"{at} {pairs[0][1]}"
    said = [f"{_wire(build, join)} {other}".strip() for join, other in pairs]
    return f"{at} {' and '.join(said)}"


def _alt(joints: Sequence[Joint]) -> str:
    """What is lit, in order; the words of the step say the same."""
    said = ", ".join(j.contact.pad for j in joints)
    return f"{joints[0].board}: {said}"


def _ends(joint: Joint, at: PadPlace) -> list[tuple[tuple[float, float], ...]]:
    """The end of each wire on its contact, side by side."""
    dx, dy = at.inward
    out: list[tuple[tuple[float, float], ...]] = []
    for k in range(len(joint.wires)):
        aside = 1.2 * (k - (len(joint.wires) - 1) / 2)
        x, y = at.x + aside * dy, at.y + aside * dx
        out.append(((x, y), (x + _STUB * dx, y + _STUB * dy)))
    return out


def _stubs(build: Build, view: BoardView, joints: Sequence[Joint]) -> list[Item]:
    """All wires of a step with one edge below them; wires of one colour together."""
    lines = [
        Line(ends, "stub", colour_of(build, join))
        for j in joints
        for join, ends in zip(j.wires, _ends(j, view.pads[j.contact.pad]), strict=True)
    ]
    edges: list[Item] = [Line(i.points, "stub-edge") for i in lines]
    return edges + sorted(lines, key=_colour)


def _colour(line: Line) -> str:
    return line.colour


def _letters_of(build: Build, joint: Joint) -> str:
    return "/".join(dict.fromkeys(filter(None, (_wire(build, j) for j in joint.wires))))


def _whole_words(build: Build, joint: Joint, no: int) -> str:
    """Number, letters and far end of a contact with one wire."""
    letters_said = _letters_of(build, joint)
    if len(joint.wires) > 1:
        return _from(build, joint, no)
    return f"{no} {letters_said} {joint.others[0]}".replace("  ", " ")


def _fit(view: BoardView, joints: Sequence[Joint], words: Sequence[str]) -> bool:
    """Whether the far ends can stand on the board: all contacts on one edge, and room behind it."""
    ways = {view.pads[j.contact.pad].inward for j in joints}
    if len(ways) != 1:
        return False
    across = view.size[0] if next(iter(ways))[0] else view.size[1]
    return max(words_width(w, TYPE) for w in words) < across - _STUB - 2.0


def _lines(words: list[str], width: float, top: float) -> tuple[list[Item], float]:
    """Words in lines that fit, below the board."""
    items: list[Item] = []
    x, y = 1.0, top + _LINE
    for said in words:
        wide = words_width(said, TYPE)
        if x > 1.0 and x + wide > width:
            x, y = 1.0, y + _LINE
        items.append(Words(x, y, said, TYPE))
        x = width / 2 if x + wide < width / 2 - _GAP and x < width / 2 else width
    return items, y + 1.5


def _words(build: Build, view: BoardView, joints: Sequence[Joint]) -> tuple[list[Item], float]:
    """Numbers at the contacts, and where their wires come from: there, else in lines below."""
    whole = [_whole_words(build, j, i) for i, j in enumerate(joints, 1)]
    places = [view.pads[j.contact.pad] for j in joints]
    if _fit(view, joints, whole):
        return [
            words_inward(at, _STUB + 0.8, said) for at, said in zip(places, whole, strict=True)
        ], view.bottom + 1.0
    short = [f"{i} {_letters_of(build, j)}".strip() for i, j in enumerate(joints, 1)]
    at_pads: list[Item] = [
        words_inward(at, _STUB + 0.8, said) for at, said in zip(places, short, strict=True)
    ]
    below, bottom = _lines(
        [_from(build, j, i) for i, j in enumerate(joints, 1)], view.width, view.bottom
    )
    return at_pads + below, bottom


def lit_items(build: Build, view: BoardView, joints: Sequence[Joint]) -> tuple[list[Item], float]:
    """What is drawn on top for one step, and how far down it reaches."""
    lit = {j.contact.pad for j in joints}
    near = {n for j in joints for n, _ in j.neighbours} - lit
    items: list[Item] = []
    for pad in sorted(near):
        items += cross(view.pads[pad]) if pad in view.pads else []
    items += _stubs(build, view, joints)
    places = [view.pads[j.contact.pad] for j in joints]
    items += [Line(((p.x, p.y), (p.x, p.y)), "dot lit") for p in places]
    said, bottom = _words(build, view, joints)
    return [*items, *said], bottom
