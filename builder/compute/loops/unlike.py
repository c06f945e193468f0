"""In what two batteries differ that are joined, aboard or on a board to charge on."""

from collections.abc import Iterator

from builder.compute.circuit.pack_volts import CHEMISTRY
from builder.load.assumed import assumed
from builder.model.kinds import Pack

_APART = assumed("battery/charge-apart")
_EXACT = 1e-6


def _full(part: Pack) -> float | None:
    if part.full is not None:
        return part.full.value
    return CHEMISTRY[part.chemistry][0] if part.chemistry is not None else None


def unlike_words(one: Pack, other: Pack, side_by_side: bool) -> Iterator[str | None]:
    """In what two batteries differ, in words; None for what one of them does not say."""
    if one.chemistry is None or other.chemistry is None:
        yield None
    elif one.chemistry != other.chemistry:
        yield f"{one.chemistry} and {other.chemistry}"
    if side_by_side:
        yield from _in_volts(one, other)
    elif one.capacity is None or other.capacity is None:
        yield None
    elif abs(one.capacity.value - other.capacity.value) > _APART * one.capacity.value:
        yield "of unlike charge"


def _in_volts(one: Pack, other: Pack) -> Iterator[str | None]:
    if one.cells is None or other.cells is None:
        yield None
    elif (one.cells.low, one.cells.high) != (other.cells.low, other.cells.high):
        yield f"{one.cells.label} and {other.cells.label}"
    volts = _full(one), _full(other)
    if volts[0] is not None and volts[1] is not None and abs(volts[0] - volts[1]) > _EXACT:
        yield "full at other volts"
