"""A pack asked for more than it is marked for.

Checks: full throttle after sag against the marked discharge: a remark above it, a fault above 1.5 times it or when a
cell falls under 2.8 V (lithium-polymer); lithium-ion packs by the mean current against their marking.
Why: a pack that is drained too fast swells, ages and can catch fire.
Example: 105 A from a pack marked for 50 A.
Mend: take a pack that gives more or a smaller propeller, or limit the throttle in the settings and say so.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figure import Figure
from builder.compute.flight import PackFlight
from builder.compute.pack_volts import LOWEST
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import FittedPack
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_FAR = 1.5


def _by_mean(pack: FittedPack, found: PackFlight, marked: float) -> Outcome:
    """Lithium-ion: the mean current against the marking."""
    if not isinstance(found.styled_current, Figure):
        return NotJudged("mean current in flight", pack.where)
    mean = found.styled_current.value
    if mean <= marked:
        return Judged()
    return Found(
        f"The mean current of {mean:.0f} A is more than pack {pack.key} is marked for ({marked:.0f} A).",
        "Take a pack that gives more, or fly slower.",
        pack.where,
    )


def _by_punch(pack: FittedPack, found: PackFlight, marked: float, lowest: float) -> Outcome:
    """Lithium-polymer: full throttle after sag against the marking, and the volts of a cell."""
    cells = pack.part.cells
    if not isinstance(found.peak_current, Figure) or not isinstance(found.sag, Figure) or cells is None:
        return NotJudged("current at full throttle: a bench table and the pack's resistance", pack.where)
    punch, volts = found.peak_current.value, found.sag.value / cells.low
    text = (
        f"Full throttle takes {punch:.0f} A from pack {pack.key}, marked for {marked:.0f} A, at {volts:.2f} V a cell."
    )
    hint = "Take a battery that gives more or a smaller propeller, or limit the throttle in the settings."
    if punch > _FAR * marked or volts < lowest:
        return Found(text, hint, pack.where)
    if punch > marked:
        return Found(text, hint, pack.where, severity=Severity.REMARK)
    return Judged()


def check(case: Case) -> Iterator[Outcome]:
    for key, pack in case.build.packs.items():
        part, found = pack.part, case.results.flight.packs[key]
        if part.discharge is None or part.capacity is None or part.cells is None:
            yield NotJudged(f"marked discharge of pack {key}", pack.shelf_where)
            continue
        if part.chemistry is None:
            yield NotJudged(f"chemistry of pack {key}", pack.shelf_where)
            continue
        marked = part.discharge.current(part.capacity.value) * pack.use.parallel
        if part.chemistry == "lithium-ion":
            yield _by_mean(pack, found, marked)
        else:
            yield _by_punch(pack, found, marked, LOWEST[part.chemistry])
