"""Each rail's load against its limit, and each load's accepted volts against what it gets."""

from dataclasses import dataclass
from math import fsum

from builder.compute.circuit.converters import converter_input, rail_volts
from builder.compute.circuit.feeds import PACK, Load, Source, loads
from builder.compute.circuit.fitted_loads import standing_total
from builder.compute.circuit.nets import Netlist
from builder.compute.circuit.pack_volts import PackVolts, volts_of_packs
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import total
from builder.compute.formulas.electric.electronics import electrical_load
from builder.load.assumed import assumed
from builder.model.build import Build, piece_name
from builder.model.source.electrical import Rail

_MAKER_SHARE = assumed("supply/draw-spread")


@dataclass(frozen=True, eq=False)
class Supplied:
    """A load with the volts that reach it: lowest and highest, in every state of the packs that the
    build names.
    """

    load: Load
    typical: MaybeFigure
    peak: MaybeFigure
    lowest: float | None
    highest: float | None
    nominal: float | None


@dataclass(frozen=True, eq=False)
class RailRow:
    """One rail with its loads. Limits in A; `input_current` is what it takes from the pack at
    nominal volts.
    """

    source: Source
    volts: float
    low: float
    high: float
    limit: float | None
    peak_limit: float | None
    peak_seconds: float | None
    typical: Figure
    peak: Figure
    input_current: MaybeFigure
    supplied: tuple[Supplied, ...]
    unknown: tuple[str, ...]

    @property
    def use(self) -> float | None:
        """Typical current as a share of the limit."""
        return self.typical.value / self.limit if self.limit else None


@dataclass(frozen=True, eq=False)
class PowerPlan:
    """All rails, what hangs on the pack itself, and what has no supply."""

    rails: tuple[RailRow, ...]
    on_pack: tuple[Supplied, ...]
    unfed: tuple[Load, ...]
    packs: tuple[PackVolts, ...]
    standing: MaybeFigure
    standing_current: MaybeFigure


def _share(build: Build) -> float:
    given = build.site.spreads.maker_electrical
    return given.value if given is not None else _MAKER_SHARE


def _current(build: Build, load: Load, name: str, value: float | None) -> MaybeFigure:
    label = f"{name.capitalize()} current of {load.part}"
    shelf = build.parts[load.pad.part].shelf
    if value is None:
        return Unknown(
            f"{build.name}/current/{load.part}/{name}", label, (f"{name} current of {load.part}",)
        )
    return leaf(
        f"shelf/{shelf}/{name}-current",
        label,
        value,
        "A",
        own=value * _share(build),
        where=load.where,
    )


def _supplied(
    build: Build, load: Load, volts: tuple[float | None, float | None, float | None]
) -> Supplied:
    typical = load.typical if load.typical is not None else load.idle
    peak = load.peak if load.peak is not None else typical
    if peak == 0.0:
        peak = None  # a buzzer that is silent in flight: what it takes when it sounds, nobody says
    return Supplied(
        load, _current(build, load, "typical", typical), _current(build, load, "peak", peak), *volts
    )


def _row(
    build: Build, source: Source, rail: Rail, given: list[Load], nominal_in: float | None
) -> RailRow:
    volts, low, high = rail_volts(rail)
    supplied = tuple(_supplied(build, x, (low, high, volts)) for x in given)
    name = f"{build.name}/rail/{source.part}-{source.name}"
    typical = total(
        f"{name}/typical", f"Typical load of {source.label}", "A", [s.typical for s in supplied]
    )
    peak = total(f"{name}/peak", f"Peak load of {source.label}", "A", [s.peak for s in supplied])
    taken = converter_input(build, source, rail, typical, nominal_in)
    limit = rail.limit.value if rail.limit is not None else None
    peak_limit = rail.peak.current if rail.peak is not None else None
    seconds = rail.peak.seconds if rail.peak is not None else None
    unknown = tuple(s.load.part for s in supplied if isinstance(s.typical, Unknown))
    return RailRow(
        source,
        volts,
        low,
        high,
        limit,
        peak_limit,
        seconds,
        typical,
        peak,
        taken,
        supplied,
        unknown,
    )


def _standing(
    build: Build, rows: tuple[RailRow, ...], on_pack: tuple[Supplied, ...], nominal: float | None
) -> tuple[MaybeFigure, MaybeFigure]:
    """Power that boards, video and radio take while the motors stand, and its current at nominal
    volts.
    """
    key, label = f"{build.name}/power/standing", "Standing load"
    if nominal is None:
        missing = ("volts of the battery",)
        return Unknown(key, label, missing), Unknown(f"{key}-current", label, missing)
    parts: list[MaybeFigure] = [r.input_current for r in rows] + [s.typical for s in on_pack]
    volts = constant(f"{build.name}/pack/nominal", "Nominal volts of the battery", nominal, "V")
    wired = [s for r in rows for s in r.supplied] + list(on_pack)
    counted = {s.load.part for s in wired if isinstance(s.typical, Figure)}
    current = standing_total(build, parts, counted, volts)
    return apply(key, label, formula(electrical_load), volts, current), current


def power(build: Build, nets: Netlist) -> PowerPlan:
    """Rails, loads and the packs' volts of a build."""
    found = loads(build, nets)
    packs = volts_of_packs(build)
    low = min((p.least_fed for p in packs), default=None)
    high = max((p.full for p in packs), default=None)
    nominal = fsum(p.nominal for p in packs) / len(packs) if packs else None
    by_source: dict[tuple[str, str], list[Load]] = {}
    on_pack: list[Supplied] = []
    unfed: list[Load] = []
    for load in found:
        if load.source is None:
            unfed.append(load)
        elif load.source == PACK:
            on_pack.append(_supplied(build, load, (low, high, nominal)))
        else:
            by_source.setdefault((load.source.part, load.source.name), []).append(load)
    rows = []
    for fitted in build.parts.values():
        for piece in fitted.pieces:
            board = piece_name(fitted.key, piece)
            for name, rail in fitted.part.rails.items():
                if rail.volts != "battery":
                    rows.append(
                        _row(
                            build,
                            Source(board, name, rail),
                            rail,
                            by_source.get((board, name), []),
                            nominal,
                        )
                    )
    standing, current = _standing(build, tuple(rows), tuple(on_pack), nominal)
    return PowerPlan(tuple(rows), tuple(on_pack), tuple(unfed), packs, standing, current)
