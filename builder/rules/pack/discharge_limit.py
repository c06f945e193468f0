"""A battery asked for more than it is rated for.

Checks: the mean current in flight against the rated discharge: above it is a fault. Full throttle
after sag: above it is a remark, above 1.5 times it a fault. A cell under 2.8 V (lithium-polymer)
or 2.5 V (lithium-ion) at full throttle is a fault.
Why: a battery that is drained too fast swells, ages and can catch fire.
Example: 105 A from a battery rated for 50 A.
Mend: take a battery that gives more or a smaller propeller, or limit the throttle in the settings
and say so.
Source: least volts of a cell: cell data sheets, 2.5 V to 3.0 V by type; 1.5 times and 2.8 V are
common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.pack_volts import LOWEST
from builder.compute.figures.figure import Figure
from builder.compute.flight.flight import PackFlight
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.sentence import Amount
from builder.load.assumed import assumed
from builder.model.build import FittedPack
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_FAR = assumed("battery/punch-over-marked")


def _marking(pack: FittedPack, marked: float) -> Amount:
    return given(marked, "A", f"shelf/{pack.shelf}/discharge")


def _too_much_for_long(pack: FittedPack, found: PackFlight, marked: float) -> Found | None:
    """The mean current against the marking, whatever the cells are made of."""
    if not isinstance(found.styled_current, Figure) or found.styled_current.value <= marked:
        return None
    return Found(
        say(
            "The mean current of {} is more than battery {} is rated for ({}).",
            found.styled_current,
            pack.key,
            _marking(pack, marked),
        ),
        "Take a battery that gives more, or fly slower.",
        pack.where,
    )


def _by_punch(pack: FittedPack, found: PackFlight, marked: float) -> Outcome:
    """Full throttle after sag against the marking, and the volts of a cell against what its
    chemistry bears.
    """
    cells, chemistry = pack.cells, pack.part.chemistry
    if (
        not isinstance(found.peak_current, Figure)
        or not isinstance(found.sag, Figure)
        or cells is None
    ):
        return NotJudged(
            "current at full throttle: a bench table and the battery's resistance", pack.where
        )
    punch, volts = found.peak_current.value, found.sag.value / cells.low
    text = say(
        "Full throttle takes {} from battery {}, rated for {}, at {} a cell.",
        found.peak_current,
        pack.key,
        _marking(pack, marked),
        made(volts, "V", found.sag.key),
    )
    hint = (
        "Take a battery that gives more or a smaller propeller, or limit the throttle in the"
        " settings."
    )
    empty = chemistry is not None and volts < LOWEST[chemistry]
    if punch > _FAR * marked or empty:
        return Found(text, hint, pack.where)
    if punch > marked:
        return Found(text, hint, pack.where, severity=Severity.REMARK)
    return (
        Judged()
        if chemistry is not None
        else NotJudged(f"chemistry of battery {pack.key}", pack.shelf_where)
    )


def check(case: Case) -> Iterator[Outcome]:
    for key, pack in case.build.packs.items():
        part, found = pack.part, case.results.flight.packs[key]
        if part.discharge is None or part.capacity is None or part.cells is None:
            yield NotJudged(f"marked discharge of battery {key}", pack.shelf_where)
            continue
        marked = part.discharge.current(part.capacity.value) * pack.use.parallel
        pushed = _by_punch(pack, found, marked)
        is_fault = isinstance(pushed, Found) and pushed.severity is None
        yield pushed if is_fault else _too_much_for_long(pack, found, marked) or pushed
