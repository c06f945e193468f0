"""The words of a group of steps: what is done, to what, at which contacts in their order."""

from collections.abc import Callable, Mapping, Sequence

from builder.compute.figures.told import WordsOrTold
from builder.compute.joints.joints import Joint
from builder.compute.joints.strips import hidden
from builder.compute.order.steps.propeller_step import listed_motors
from builder.compute.order.steps.work_step import WorkStep
from builder.model.build import Build


def piece_words(piece: str) -> str:
    """A piece as it is said: `motor 1`."""
    return piece.replace(".", " ")


def piece_of(step: WorkStep) -> str:
    """The piece that a step's name ends in."""
    return step.id.partition(" ")[2]


def _said_once(steps: Sequence[WorkStep]) -> str:
    """The one text of steps that differ in their piece alone; '' where they differ in more."""
    said = set()
    for step in steps:
        if not isinstance(step.text, str):
            return ""
        piece = piece_of(step)
        where = " at its own corner" if step.place else ""
        text = step.text.replace(step.place, where) if step.place else step.text
        said.add(text.replace(piece, f"each {piece.split('.')[0]}"))
    return said.pop() if len(said) == 1 else ""


def says_it_once(steps: Sequence[WorkStep]) -> bool:
    """Whether the words of the group are those of each of its steps, but for the piece."""
    return bool(_said_once(steps))


def _contacts(joints: Sequence[Joint]) -> str:
    """The contacts of a harness: as the device prints them, or as the board does where wires of
    several devices end there.
    """
    one = {c.board for j in joints for c in j.others}
    if len(one) == 1 and all(len(j.others) == 1 for j in joints):
        return ", ".join(j.others[0].pad for j in joints)
    return ", ".join(j.contact.pad for j in joints)


def _solder(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    joints = [s.joint for s in steps if s.joint is not None]
    if not joints:
        return f"Tin the pads of {piece_words(device)}."
    board = piece_words(joints[0].board)
    under = ", underside" if joints[0].side == "under" else ""
    tinned = any(s.do == "tin" for s in steps)
    pads = ", ".join(j.contact.pad for j in joints)
    if all(j.cup for j in joints):
        if tinned:
            return f"Tin the cups of {board}, then solder its wires: {pads}."
        return f"Solder the wires of {board} into its cups: {pads}."
    if " at " not in device:
        first = f"Tin the pads of {board}, then solder" if tinned else "Solder"
        whose = "its wires" if tinned else f"the wires of {board}"
        return f"{first} {whose}{under}: {pads}."
    pieces = dict.fromkeys(c.board for j in joints for c in j.others)
    what = listed_motors([piece_words(p) for p in pieces])
    first = f"Tin the pads of {board}, then solder" if tinned else "Solder"
    where = "" if tinned else f" to {board}"
    if all(hidden(build, j) for j in joints):  # the device is soldered to their other ends later
        what = f"the wires for {what}"
    return f"{first} {what}{where}{under}: {_contacts(joints)}."


def _tin(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    return f"Tin the pads of {piece_words(device)}."


def _prepare(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    sleeve = any(s.id.startswith("slide ") for s in steps)
    end = ", then slide its sleeve on" if sleeve else ""
    return f"Cut and strip the wires of {piece_words(device)}{end}."


def _check(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    return f"Check {piece_words(device)} before it gets power."


def _plug(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    return f"Plug the {piece_words(device)}s in."


def _join(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    return f"Beep-test {piece_words(device)}, then plug it in."


def _place(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    return f"Put in place: {', '.join(piece_of(s) for s in steps)}."


def _cover(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    return f"Shrink the sleeves: {', '.join(piece_of(s) for s in steps)}."


def _tie(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    return "Tie down what may swing."


def _fit(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    return "Fit the antennas."


def _small(build: Build, steps: Sequence[WorkStep], device: str) -> str:
    return f"Fit the small parts: {', '.join(piece_of(s) for s in steps)}."


_WORDS: Mapping[str, Callable[[Build, Sequence[WorkStep], str], str]] = {
    "solder": _solder,
    "tin": _tin,
    "prepare": _prepare,
    "join": _join,
    "check": _check,
    "plug": _plug,
    "place": _place,
    "cover": _cover,
    "tie": _tie,
    "fit": _fit,
    "mount": _small,
}


def group_words(build: Build, name: str, steps: Sequence[WorkStep]) -> WordsOrTold:
    """What is done in a group, in one sentence: its steps say the rest."""
    once = _said_once(steps)
    if once:
        return once
    action, _, device = name.partition(",")[0].partition(" ")
    if action in _WORDS:
        return _WORDS[action](build, steps, device)
    return f"{action.capitalize()} {listed_motors([piece_words(piece_of(s)) for s in steps])}."
