"""Unlike batteries that are joined.

Checks: batteries of another kind that are joined with a battery, by `beside`. In parallel their
cells, chemistry and full volts are compared, in series their chemistry and capacity.
Why: in parallel the one with more volts charges the other with all the current that it has. In
series the smaller one is emptied, turned round and burns.
Example: 1300 mAh and 2200 mAh in series.
Mend: join only batteries of one kind and age.
Source: common practice, no source; Kirchhoff's laws
"""

from collections.abc import Iterator

from builder.compute.circuit.pack_volts import CHEMISTRY
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.model.build import FittedPack, ShelfEntry
from builder.model.kinds import Pack
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_APART = assumed("battery/charge-apart")
_MEND = "Never join them. Take batteries of one kind and age."
_EXACT = 1e-6


def _full(part: Pack) -> float | None:
    if part.full is not None:
        return part.full.value
    return CHEMISTRY[part.chemistry][0] if part.chemistry is not None else None


def _unlike(one: Pack, other: Pack, side_by_side: bool) -> Iterator[str | None]:
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


def _one(pack: FittedPack, entry: ShelfEntry) -> Outcome:
    other = entry.part
    if not isinstance(other, Pack):
        return NotJudged(f"the battery beside {pack.key}", pack.where)
    apart: list[str | None] = []
    if pack.use.parallel > 1:
        apart += _unlike(pack.part, other, side_by_side=True)
    if pack.use.series > 1:
        apart += _unlike(pack.part, other, side_by_side=False)
    words = list(dict.fromkeys(w for w in apart if w is not None))
    if words:
        text = f"Battery {pack.key} is joined with {entry.name}: {', '.join(words)}."
        return Found(text, _MEND, pack.where.at("beside"), see=(entry.where,))
    if None in apart:
        return NotJudged(
            f"cells, chemistry and capacity of {pack.key} and {entry.name}", pack.where
        )
    return Judged()


def check(case: Case) -> Iterator[Outcome]:
    for pack in case.build.packs.values():
        for name in pack.use.beside:
            yield _one(pack, case.build.shelf[name])
