"""The volts of a rail, and what it takes from the battery through its converter."""

from builder.compute.circuit.feeds import Source
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.electric.electronics import converter_input_current
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.source.electrical import Rail

_EFFICIENCY = {
    "step-down": assumed("supply/converter-down"),
    "step-up": assumed("supply/converter-up"),
    "switch": assumed("supply/converter-switch"),
    "direct": assumed("supply/converter-direct"),
}
_OF_UNSAID = assumed("supply/converter-unsaid")
_EFFICIENCY_SPREAD = assumed("supply/converter-spread")
_USUAL_TOLERANCE = assumed("supply/rail-tolerance")


def usual_efficiency(converter: str | None) -> float:
    """The efficiency of a kind of converter, where nobody says it."""
    return _EFFICIENCY.get(converter or "", _OF_UNSAID)


def rail_volts(rail: Rail) -> tuple[float, float, float]:
    """Nominal, lowest and highest volts of a regulated rail."""
    volts = rail.volts.value if not isinstance(rail.volts, str) else 0.0
    share = rail.tolerance.value if rail.tolerance is not None else _USUAL_TOLERANCE
    return volts, volts * (1 - share), volts * (1 + share)


def _efficiency(build: Build, source: Source, rail: Rail) -> Figure:
    key, share = f"efficiency/{rail.converter or 'unknown'}", usual_efficiency(rail.converter)
    if rail.efficiency is not None:
        key = f"{_key(build, source)}/efficiency"
        share = rail.efficiency.value
    return leaf(
        key,
        f"Efficiency of {source.label}",
        share,
        "1",
        own=_EFFICIENCY_SPREAD,
        basis="estimate",
        note="common practice, no source",
    )


def _key(build: Build, source: Source) -> str:
    return f"{build.name}/rail/{source.part}-{source.name}"


def converter_input(
    build: Build, source: Source, rail: Rail, typical: Figure, nominal: float | None
) -> MaybeFigure:
    """What a rail takes (A) at the battery's nominal volts, with this typical load."""
    name, label = _key(build, source), f"Input current of {source.label}"
    if nominal is None:
        return Unknown(f"{name}/input", label, ("volts of the battery",))
    if rail.converter == "linear":
        return typical
    volts, _, _ = rail_volts(rail)
    out = constant(f"{name}/volts", f"Volts of {source.label}", volts, "V")
    into = constant(f"{build.name}/pack/nominal", "Nominal volts of the battery", nominal, "V")
    efficiency = _efficiency(build, source, rail)
    return apply(
        f"{name}/input", label, formula(converter_input_current), out, typical, into, efficiency
    )
