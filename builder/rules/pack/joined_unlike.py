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

from builder.compute.loops.unlike import unlike_words
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import FittedPack, ShelfEntry
from builder.model.kinds import Pack
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_MEND = "Never join them. Take batteries of one kind and age."


def _one(pack: FittedPack, entry: ShelfEntry) -> Outcome:
    other = entry.part
    if not isinstance(other, Pack):
        return NotJudged(f"the battery beside {pack.key}", pack.where)
    apart: list[str | None] = []
    if pack.use.parallel > 1:
        apart += unlike_words(pack.part, other, side_by_side=True)
    if pack.use.series > 1:
        apart += unlike_words(pack.part, other, side_by_side=False)
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
