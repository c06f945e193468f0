"""Walks a printed order of work and its gates sentence by sentence and says where a hand goes on
while power is on.

Written apart from the planner: it reads words only, as a person at the bench does. It knows no step
by name, no constraint and no phase.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

_ON = re.compile(
    r"plug in (the|a)\b.*battery|plug in the battery|connect .* by usb|over usb|output on\b", re.I
)
_OFF = re.compile(r"\bunplug\b|supply off|(is|are|battery) unplugged", re.I)
_NOT_A_DEED = re.compile(
    r"^(if |never |replace )|only if ", re.I
)  # what to do when, or what not to do
_HAND = re.compile(
    r"^(solder|tin|strip|cut|trim|sleeve|slide|draw|clean|mount|fit|lay|set .*"
    r" on|push|tie|coat|glue|beep|ring|measure|"
    r"put everything|close|take .* out|hold the insulated)\b",
    re.I,
)
_EMPTY = re.compile(r"plus to minus[^.]* reads under 1 V", re.I)


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


def _deeds(text: str) -> Iterator[str]:
    """Sentences, and parts of one before a colon, that tell somebody to do something."""
    for sentence in re.split(r"(?<=[.!?:;])\s+", text):
        if sentence.strip() and not _NOT_A_DEED.search(sentence.strip()):
            yield sentence.strip()


def _last(pattern: re.Pattern[str], sentence: str) -> int:
    return max((m.start() for m in pattern.finditer(sentence)), default=-1)


def _one(stop: Stop) -> Iterator[str]:
    """What is wrong at one stop, which begins with the power off."""
    power, by_usb, charged = False, False, False
    for line in stop.lines:
        for sentence in _deeds(line.text):
            on, off = _last(_ON, sentence), _last(_OFF, sentence)
            if (
                (power or charged)
                and _HAND.search(sentence)
                and off < 0
                and not sentence.startswith("Hold the insulated")
            ):
                yield f"{stop.name}: {sentence!r} under power"
            if on > off:
                power, by_usb = True, "usb" in sentence.casefold()
                charged = charged or not by_usb
            elif off > on:
                power = False
            if _EMPTY.search(sentence) and not power:
                charged = False
        if line.touched and (power or charged):
            yield f"{stop.name}: iron or ohms under power"
    if power:
        yield f"{stop.name} ends with the power on"
    elif charged:
        yield f"{stop.name} ends with a charged capacitor"


def walk(stops: Iterable[Stop]) -> list[str]:
    """What is wrong: iron, ohms or a hand while power is on or a capacitor charged, or a stop that
    ends so.
    """
    return [wrong for stop in stops for wrong in _one(stop)]
