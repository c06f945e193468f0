"""What a gate takes and holds: expected current at the supply's volts, the limiter's rating, the
capacitor's discharge.
"""

from dataclasses import dataclass

from builder.compute.circuit.converters import usual_efficiency
from builder.compute.circuit.feeds import Load
from builder.compute.circuit.rails import PowerPlan, RailRow
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import total
from builder.compute.formulas.electric.capacitors import charge_time_at_limit, discharge_time
from builder.compute.formulas.electric.electronics import supply_limit
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build

SAFE_VOLTS = assumed("first power-up/safe-volts")
# what has to be read before ohms, iron or a finger follow power: from the battery, from USB
UNDER_SAFE_VOLTS = f"under {SAFE_VOLTS:g} V"
BLEEDER_WATTS = assumed("first power-up/bleeder-watts")
_BLEEDERS = assumed_list("first power-up/bleeder-ohms")
_SPREAD = assumed("first power-up/draw-spread")
_USUAL_START = assumed("first power-up/start-factor")


@dataclass(frozen=True, eq=False)
class GatePower:
    """What a gate of the first power-up takes.

    `starting` and `limit` are in A. `low` and `high` are the current to expect once all has
    started, None where a draw is not known; `unknown` names those parts. `limiter` is what a series
    limiter carries and at most passes (A), None where it cannot be derived.
    """

    starting: Figure
    limit: MaybeFigure
    low: Figure | None
    high: Figure | None
    unknown: tuple[str, ...]
    limiter: tuple[float, float] | None


@dataclass(frozen=True, eq=False)
class Discharge:
    """How the battery net is emptied: the resistor (Ω), the capacitance (F), from which volts, how
    long.

    `farads` is None where a capacitor's capacitance is not known, 0 without one. `flash` is how
    long the supply's limit lamp is lit while it charges, at the least limit.
    """

    ohms: float
    farads: float | None
    volts: float | None
    time: MaybeFigure
    flash: MaybeFigure


def row_of(power: PowerPlan, load: Load) -> RailRow | None:
    """The rail that feeds a load; None for one on the battery itself."""
    return next((r for r in power.rails if r.source == load.source), None)


def at_supply(power: PowerPlan, load: Load, volts: float | None) -> float | None:
    """A at the supply for each A of the load: through a switching converter by its volts; None if
    not known.
    """
    row = row_of(power, load)
    if row is None:
        return 1.0
    rail = row.source.rail
    if rail is not None and rail.converter == "linear":
        return 1.0
    if not volts:
        return None
    given = rail.efficiency.value if rail is not None and rail.efficiency is not None else None
    usual = usual_efficiency(rail.converter if rail is not None else None)
    return row.volts / ((given or usual) * volts)


def _leaf(
    build: Build, power: PowerPlan, load: Load, what: str, amperes: float, share: float, note: str
) -> Figure:
    row = row_of(power, load)
    label = f"{what.capitalize()} current of {load.part}" + (
        " at the supply" if row is not None else ""
    )
    through = "at the volts of its rail, brought to the supply's volts" if row is not None else ""
    words = "; ".join(n for n in (note, through) if n)
    value = amperes * share
    key = f"{build.name}/{what}/{load.part}"
    return leaf(
        key, label, value, "A", own=_SPREAD * value, basis="estimate", where=load.where, note=words
    )


def starting(build: Build, power: PowerPlan, load: Load, volts: float | None) -> Figure:
    """Current that a load takes from the bench supply as it starts."""
    usual = _USUAL_START * (load.typical or load.idle or 0.0)
    given = load.start if load.start is not None else usual
    note = (
        ""
        if load.start is not None
        else "its typical current times the usual factor at the start, an assumed value"
    )
    share = at_supply(power, load, volts)
    return _leaf(build, power, load, "start", given, share if share is not None else 1.0, note)


def _settled(
    build: Build, power: PowerPlan, load: Load, volts: float | None
) -> tuple[Figure, Figure] | None:
    """The least and the most that a load takes once it has started; None where nobody says."""
    known = [a for a in (load.idle, load.typical) if a is not None]
    share = at_supply(power, load, volts)
    if not known or share is None:
        return None
    note = "less and more by the usual spread of a draw, an assumed value"
    low = _leaf(build, power, load, "least", min(known) * (1 - _SPREAD), share, note)
    return low, _leaf(build, power, load, "most", max(known) * (1 + _SPREAD), share, note)


def _says_nothing(load: Load) -> bool:
    return load.start is None and load.typical is None and load.idle is None


def gate_power(
    build: Build,
    power: PowerPlan,
    letter: str,
    loads: list[Load],
    silent: tuple[str, ...],
    volts: float | None,
) -> GatePower:
    """What all loads that are on at a gate take together. `silent` are boards that no load is known
    of.
    """
    key = f"{build.name}/gate/{letter}"
    starts = [starting(build, power, load, volts) for load in loads if not _says_nothing(load)]
    first = total(f"{key}/starting", f"Starting loads at gate {letter}", "A", starts)
    limit = apply(f"{key}/limit", f"Current limit at gate {letter}", formula(supply_limit), first)
    found = [(load, _settled(build, power, load, volts)) for load in loads]
    unknown = tuple(
        dict.fromkeys((*silent, *(load.part for load, settled in found if settled is None)))
    )
    known = [settled for _, settled in found if settled is not None]
    low = high = None
    if known and not unknown:
        low = total(f"{key}/least", f"Least current at gate {letter}", "A", [s[0] for s in known])
        high = total(f"{key}/most", f"Most current at gate {letter}", "A", [s[1] for s in known])
    uncounted = silent or not starts or any(_says_nothing(load) for load in loads)
    limiter = (first.value, limit.value) if isinstance(limit, Figure) and not uncounted else None
    return GatePower(first, limit, low, high, unknown, limiter)


def bleeder(volts: float | None) -> float:
    """The resistor that empties the battery net (Ω): the first that does not get hotter than its
    rating.
    """
    fits = (ohms for ohms in _BLEEDERS if volts is None or volts**2 / ohms <= BLEEDER_WATTS)
    return next(fits, _BLEEDERS[-1])


def discharge(
    build: Build, letter: str, farads: float | None, volts: float | None, limit: MaybeFigure
) -> Discharge:
    """How the battery net is emptied at the end of a gate; the time is for the build's capacitors
    alone.
    """
    ohms, key = bleeder(volts), f"{build.name}/discharge"
    at = f"{build.name}/gate/{letter}"
    missing = [] if farads is not None else ["capacitance of the capacitor"]
    missing += [] if volts is not None else ["volts of the battery"]
    labels = ("Time to empty the battery net", "Time of the limit lamp")
    if farads is None or volts is None:
        named = zip((f"{key}/time", f"{at}/flash"), labels, strict=True)
        nobody = [Unknown(name, label, tuple(missing)) for name, label in named]
        return Discharge(ohms, farads, volts, *nobody)
    resistor = constant(f"{key}/resistor", "Resistor across plus and minus", ohms, "Ω")
    held = constant(f"{key}/capacitance", "Capacitors on the battery net", farads, "F")
    full = constant(f"{key}/volts", "Highest volts of the batteries", volts, "V")
    rest = constant(
        f"{key}/rest", "Volts that may be left", SAFE_VOLTS, "V", note="common practice, no source"
    )
    time = apply(f"{key}/time", labels[0], formula(discharge_time), resistor, held, full, rest)
    flash = apply(f"{at}/flash", labels[1], formula(charge_time_at_limit), held, full, limit)
    return Discharge(ohms, farads, volts, time, flash)
