"""A picture for a check with the meter: the board with one probe on each of two contacts, and what to
expect. Only for checks without power: nobody is shown two probes on a live board.
"""

from builder.compute.circuit.contacts import Join
from builder.compute.joints.joints import Joint
from builder.compute.order.steps.work_step import StepGroup, WorkStep
from builder.frozen import value_class
from builder.model.build import Contact
from builder.model.kinds import Connector
from builder.pages.drawing import Item, Line, Words
from builder.pages.drawings.text_size import words_width
from builder.pages.sheet_input import SheetInput
from builder.pages.views.board_view import TYPE, BoardView, PadPlace, words_inward

_LONG = 9.0  # mm of a probe that is drawn
_TIP = 3.5  # mm of it that are its bare tip
_ROW = 4.3  # mm between the lines below the board


@value_class(frozen=True, slots=True)
class Probes:
    """The contact of each probe, the contacts that the red one goes on to, and what is expected."""

    board: str
    side: str
    red: str
    black: str
    then: tuple[str, ...]
    expected: tuple[str, ...]


def _said(step: WorkStep, first: int = 0) -> tuple[str, ...]:
    return tuple(f"{m.label}: {m.expect}" for m in step.measures[first : first + 1])


def _poles(sheet: SheetInput, board: str) -> tuple[str, str] | None:
    """Plus and minus at which the battery's wires end on a board; None where that is not one each."""
    build = sheet.build

    def from_battery(join: Join) -> bool:
        ends = (build.parts[c.part].part for c in (join.a, join.b))
        return any(isinstance(part, Connector) for part in ends)

    own = [j for j in sheet.results.joints if j.board == board]
    found = [j for j in own if any(from_battery(w) for w in j.wires)]
    plus = [j.contact.pad for j in found if build.pad(j.contact).role == "draws"]
    minus = [j.contact.pad for j in found if build.pad(j.contact).role == "ground"]
    return (plus[0], minus[0]) if len(plus) == len(minus) == 1 else None


def _phases(sheet: SheetInput, board: str) -> tuple[tuple[str, int | None], ...]:
    """The phase contacts of a board, with their channels."""
    own = [j.contact for j in sheet.results.joints if j.board == board]
    pads = ((c.pad, sheet.build.pad(c)) for c in own)
    return tuple((name, pad.channel) for name, pad in pads if pad.role == "phase")


def _at_battery(sheet: SheetInput, group: StepGroup, view_side: str) -> Probes | None:
    """Between plus and minus, and from each phase contact to minus."""
    step = group.steps[0]
    poles = _poles(sheet, step.board)
    if poles is None:
        return None
    phases = [s for s in group.steps if s.id.startswith("phases ")]
    then = tuple(name for name, _ in _phases(sheet, step.board)) if phases else ()
    said = tuple(words for s in group.steps for words in _said(s))
    if step in phases:
        if not then:
            return None
        return Probes(step.board, view_side, then[0], poles[1], then[1:], said)
    return Probes(step.board, view_side, *poles, then, said)


def _between_channels(sheet: SheetInput, step: WorkStep) -> Probes | None:
    """Two phase contacts of different channels: those of one channel beep through the winding."""
    channels = dict(_phases(sheet, step.board))
    pairs = [
        (j.contact.pad, pad)
        for j in sheet.results.joints
        if j.board == step.board and j.contact.pad in channels
        for pad, _ in j.neighbours
        if pad in channels and channels[pad] != channels[j.contact.pad]
    ]
    if not pairs or None in channels.values():
        return None
    return Probes(step.board, "top", *pairs[0], (), _said(step))


def _black_on_ground(sheet: SheetInput, one: Contact, other: str) -> tuple[str, str]:
    """Red and black: nobody is shown red on a ground, though a beep does not mind."""
    ground = sheet.build.pad(one).role == "ground"
    return (other, one.pad) if ground else (one.pad, other)


def _neighbours(sheet: SheetInput, step: WorkStep) -> Probes | None:
    """A soldered contact and its neighbour on another net: those of one net beep."""
    nets = sheet.results.netlist

    def apart(joint: Joint, pad: str) -> bool:
        other = Contact(joint.contact.part, joint.contact.piece, pad)
        known = joint.contact in nets.of and other in nets.of
        return not known or not nets.joined(joint.contact, other)

    for joint in sheet.results.joints:
        if joint.board == step.board and joint.side == step.side:
            near = [pad for pad, _ in joint.neighbours if apart(joint, pad)]
            if near:
                red, black = _black_on_ground(sheet, joint.contact, near[0])
                return Probes(step.board, step.side, red, black, (), _said(step))
    return None


def probes_of(sheet: SheetInput, group: StepGroup) -> Probes | None:
    """Where the probes go in a check; None for all else, and for all that is done under power."""
    step = group.steps[0]
    if step.do != "check" or step.gate or any(s.power for s in group.steps) or not step.board:
        return None
    kind = step.id.split(" ", 1)[0]
    if kind in ("ring", "phases"):
        return _at_battery(sheet, group, "top")
    if kind == "inspect":
        return _between_channels(sheet, step)
    return _neighbours(sheet, step) if kind == "look" else None


def _probe(at: PadPlace, name: str) -> tuple[Line, Line]:
    """A probe with its bare tip on a contact and its thick handle behind: no wire looks so. The red
    one is red too.
    """
    (x, y), (dx, dy) = (at.x, at.y), at.inward
    tone = " red" if name == "red" else ""
    neck, end = (x + _TIP * dx, y + _TIP * dy), (x + _LONG * dx, y + _LONG * dy)
    return Line(((x, y), neck), f"probe{tone}"), Line((neck, end), f"probe handle{tone}")


def _rows(probes: Probes, width: float) -> list[str]:
    """What is expected, and where the red probe goes on to, in lines that fit."""
    words = list(probes.expected)
    if probes.then:
        words.append(f"red also on each lit contact: {probes.then[0]} to {probes.then[-1]}")
    rows: list[str] = []
    for said in words:
        line = ""
        for word in said.split(" "):
            longer = f"{line} {word}".strip()
            if line and words_width(longer, TYPE) > width:
                rows.append(line)
                longer = word
            line = longer
        rows.append(line)
    return rows


def probe_items(view: BoardView, probes: Probes) -> tuple[list[Item], float]:
    """What is drawn on top of the board, and how far down it reaches."""
    places = [view.pads[p] for p in probes.then if p in view.pads]
    items: list[Item] = [Line(((p.x, p.y), (p.x, p.y)), "dot lit") for p in places]
    ends = [(view.pads[probes.black], "black"), (view.pads[probes.red], "red")]
    items += [line for at, name in ends for line in _probe(at, name)]
    items += [words_inward(at, _LONG + 2.0, f"{name} probe") for at, name in ends]
    y = view.bottom
    for said in _rows(probes, view.width - 2.0):
        y += _ROW
        items.append(Words(1.0, y, said, TYPE))
    return items, y + 1.5
