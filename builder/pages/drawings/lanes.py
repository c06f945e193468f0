"""Lanes of a channel: which wire runs nearer to which side, so that few cross, and which wires may
share a lane.
"""

from bisect import bisect_left, bisect_right, insort
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

Bank = Literal["left", "right"]
_SWEEPS = (
    4  # rounds of moving wires between lanes; more than three have not helped in any wiring tried
)


@dataclass(frozen=True, slots=True)
class LaneWire:
    """A wire in an upright channel: the height (mm) of its two ends and the bank that each leaves
    from.
    """

    y1: float
    bank1: Bank
    y2: float
    bank2: Bank

    @property
    def low(self) -> float:
        """The smaller height."""
        return min(self.y1, self.y2)

    @property
    def high(self) -> float:
        """The greater height."""
        return max(self.y1, self.y2)

    @property
    def ends(self) -> tuple[tuple[float, Bank], tuple[float, Bank]]:
        """Both ends."""
        return ((self.y1, self.bank1), (self.y2, self.bank2))


def chord_crossings(chords: Iterable[tuple[int, int]]) -> int:
    """Pairs of chords of a circle that must cross; ends at one place never do. Each chord has its
    smaller end first.

    It is the least number of crossings in a channel whose ends are fixed, for a channel is a disc.
    """
    ends: list[int] = []
    crossings = 0
    for p, q in sorted(chords, key=lambda c: (c[0], -c[1])):
        crossings += bisect_left(ends, q) - bisect_right(ends, p)
        insort(ends, q)
    return crossings


def _meets(first: LaneWire, second: LaneWire) -> int:
    """How often two wires cross when the lane of the first lies left of the second's."""
    low, high = first.low, first.high
    met = sum(bank == "left" and low < y < high for y, bank in second.ends)
    low, high = second.low, second.high
    return met + sum(bank == "right" and low < y < high for y, bank in first.ends)


def _first_guess(wire: LaneWire) -> tuple[int, float]:
    """From left to right: loops of the left bank, short ones first; wires that go over; loops of
    the right bank.
    """
    span = wire.high - wire.low
    if wire.bank1 == wire.bank2:
        return (0, span) if wire.bank1 == "left" else (3, -span)
    left, right = (wire.y1, wire.y2) if wire.bank1 == "left" else (wire.y2, wire.y1)
    return (1, -left) if right > left else (2, left)


def _in_order(gain: Sequence[Sequence[int]], start: list[int]) -> list[int]:
    """Moves one wire at a time to where it crosses least. `gain[i][j]`: crossings more if i lies
    left of j than right.
    """
    order = start
    for _ in range(_SWEEPS):
        moved = False
        for wire in tuple(order):
            at = order.index(wire)
            rest = order[:at] + order[at + 1 :]
            row = gain[wire]
            best, best_at, total = 0, 0, 0
            for i, other in enumerate(rest, 1):
                total -= row[other]  # passing over to the right of `other`
                if total < best:
                    best, best_at = total, i
            here = -sum(row[o] for o in rest[:at])
            if best < here:
                order = [*rest[:best_at], wire, *rest[best_at:]]
                moved = True
        if not moved:
            break
    return order


def lanes(wires: Sequence[LaneWire], clear: float) -> tuple[int, ...]:
    """The lane of each wire, from 0 at the left. Wires share a lane where `clear` mm or more lie
    between them.
    """
    count = len(wires)
    gain = [[0] * count for _ in wires]
    close = [[False] * count for _ in wires]
    for i, a in enumerate(wires):
        for j in range(i):
            b = wires[j]
            if a.low < b.high + clear and b.low < a.high + clear:
                close[i][j] = close[j][i] = True
                gain[i][j] = _meets(a, b) - _meets(b, a)
                gain[j][i] = -gain[i][j]
    order = _in_order(gain, sorted(range(count), key=lambda i: (*_first_guess(wires[i]), i)))
    found = [0] * count
    for place, i in enumerate(order):
        found[i] = max((found[j] + 1 for j in order[:place] if close[i][j]), default=0)
    last = max(found, default=0)
    for place in range(count - 1, -1, -1):  # loops of the right bank lie as near to it as they can
        i = order[place]
        if wires[i].bank1 == wires[i].bank2 == "right":
            found[i] = min((found[j] - 1 for j in order[place + 1 :] if close[i][j]), default=last)
    return tuple(found)
