"""Batteries that are joined at unlike charge.

Checks: the volts of each battery before they are joined (`each_volts`). In parallel they may differ
by 0.05 V a cell, in series by 0.1 V a cell.
Why: the fuller one charges the other through leads and cells that have no limit of their own. In
series the emptier one is emptied below what it bears.
Example: 16.8 V and 15.2 V in parallel.
Mend: charge both fully, measure both, then join them.
Source: common practice, no source; the current is Ohm's law
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.compute.loops.matching import apart_at_most, joined_packs
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.sentence import Sentence
from builder.model.build import FittedPack
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_MEND = "Do not join them. Charge each fully, measure each, then join them."
_EXACT = 1e-9


def _through_both(case: Case, pack: FittedPack, apart: float) -> float | None:
    """Current from the fuller battery into the other (A): volts apart over both resistances."""
    whole = case.results.flight.packs[pack.key].energy.resistance
    if not isinstance(whole, Figure) or pack.use.parallel < 2 or whole.value <= 0.0:
        return None
    each = whole.value * pack.use.parallel / pack.use.series
    return apart / (2.0 * each)


def _words(case: Case, pack: FittedPack, volts: tuple[float, float]) -> Sentence:
    low, high = volts
    before = "The batteries of {} have {} to {}"
    current = _through_both(case, pack, high - low)
    if current is None:
        return say(f"{before} before they are joined.", pack.key, given(low, "V"), given(high, "V"))
    return say(
        f"{before}; joined, about {{}} flow from one into the other.",
        pack.key,
        given(low, "V"),
        given(high, "V"),
        made(current, "A", decimals=0),
    )


def _one(case: Case, pack: FittedPack) -> Outcome:
    read = [v.value for v in pack.use.each_volts]
    most = apart_at_most(pack)
    if not read:
        return NotJudged(f"volts of each battery of {pack.key} before they are joined", pack.where)
    if most is None:
        return NotJudged(f"cells of battery {pack.key}", pack.shelf_where)
    if max(read) - min(read) <= most * (1.0 + _EXACT):
        return Judged()
    where = pack.where.at("each_volts")
    return Found(_words(case, pack, (min(read), max(read))), _MEND, where)


def check(case: Case) -> Iterator[Outcome]:
    yield from (_one(case, p) for p in joined_packs(case.build))
