"""Walks a printed order of work and its gates clause by clause and says where a hand goes on while
power is on or a capacitor is still charged.

Written apart from the planner: it reads words only, as a person at the bench does. It knows no step
by name, no constraint and no phase. Whoever unplugs something had power: what the capacitors hold is a
state of its own, and only a reading under 1 V ends it, or a resistor that stays on for a stated time.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

_ON = re.compile(
    r"plug in (the|a|one)\b.*batter(y|ies)|plug in( \S+)? through|plug the battery in|connect .* by usb|over usb|output on\b"
    r"|^power: (usb|the battery)|^plug in$",
    re.I,
)
_OFF = re.compile(r"\bunplug(?!ged)\b|supply off|power off again|(is|are|battery) unplugged", re.I)
_NOT_A_DEED = re.compile(
    r"^(if |never |replace |do not |each gate )|only if ", re.I
)  # what to do when, or what not to do
_HAND = re.compile(
    r"^(solder|tin|strip|cut|trim|sleeve|slide|draw|clean|mount|fit|lay|set .* on|push|tie|coat|glue"
    r"|beep|ring|measure|clip|fix the (probe|meter|red probe)|move the|put (it|the meter) into|put everything|close"
    r"|connect the lead|take the limiter out|take .* (out|off$)|hold the insulated"
    r"|tighten|tap|feel|hold a finger"
    r"|check (that motor|the motor bells|the propeller|the joints|arms|wires))\b",
    re.I,
)
_EMPTY = re.compile(
    r"(plus to minus|\bit|\S+ to \S+ of \S+)(?:[^.]|\.(?=\S))* reads? under 1 V|^wait 60 s\b"
    r"|hold the insulated [^.]* resistor across plus and minus(?: at \S+(?: and \S+)?)? for \d\d s\b",
    re.I,
)
_BLEEDER = re.compile(r"^hold the insulated .* resistor", re.I)
_CLAUSE = re.compile(r"(?<=[,:;])\s+(?!\d+ W )|\s+and\s+(?=then\b|wait\b|take\b|unplug\b|put\b)")


@dataclass(frozen=True)
class Line:
    """What stands at one place of the paper: its words, and whether iron or ohms are printed at it."""

    text: str
    touched: bool = False


@dataclass(frozen=True)
class Stop:
    """A step or a gate: its name and its lines, in the order in which they are read."""

    name: str
    lines: Sequence[Line]


def sentences(text: str) -> list[str]:
    """The sentences of a text."""
    return [s.strip() for s in re.split(r"(?<=[.!?])\s+", text) if s.strip()]


def _deeds(text: str) -> Iterator[str]:
    """Clauses of sentences that tell somebody to do something."""
    for sentence in sentences(text):
        told = re.sub(r"^[^:]*: (?=Never|If )", "", sentence)
        if _NOT_A_DEED.search(told):
            continue
        for clause in _CLAUSE.split(sentence):
            said = re.sub(r"^(then|and|only now) ", "", clause.strip(" ,;:."), flags=re.I)
            if said and not _NOT_A_DEED.search(said):
                yield said


@dataclass
class _Power:
    """Whether power is on, and whether something may still be charged."""

    on: bool = False
    charged: bool = False


def _walk_clause(clause: str, power: _Power) -> bool:
    """What a clause does to the power; whether a hand goes on that should not."""
    on, off = bool(_ON.search(clause)), bool(_OFF.search(clause))
    live = power.on or power.charged
    wrong = live and not off and bool(_HAND.search(clause)) and not _BLEEDER.search(clause)
    if off:
        power.on, power.charged = False, True
    if on:
        power.on, power.charged = True, True
    if _EMPTY.search(clause) and not power.on:
        power.charged = False
    return wrong


def _one(stop: Stop) -> Iterator[str]:
    """What is wrong at one stop, which begins with the power off."""
    power = _Power()
    for line in stop.lines:
        for clause in _deeds(line.text):
            if _walk_clause(clause, power):
                yield f"{stop.name}: {clause!r} under power"
        if line.touched and (power.on or power.charged):
            yield f"{stop.name}: iron or ohms under power"
    if power.on:
        yield f"{stop.name} ends with the power on"
    elif power.charged:
        yield f"{stop.name} ends with a charged capacitor"


def walk(stops: Iterable[Stop]) -> list[str]:
    """What is wrong: iron, ohms or a hand while power is on or a capacitor charged, or a stop that
    ends so.
    """
    return [wrong for stop in stops for wrong in _one(stop)]


def without_one_wait(stop: Stop) -> Iterator[tuple[str, Stop]]:
    """The stop again and again, each time without one of its waits for an empty capacitor."""
    for at, line in enumerate(stop.lines):
        for found in _EMPTY.finditer(line.text):
            cut = line.text[: found.start()] + line.text[found.end() :]
            lines = [*stop.lines[:at], Line(cut, line.touched), *stop.lines[at + 1 :]]
            yield found.group(), Stop(stop.name, lines)
