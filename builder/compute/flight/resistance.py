"""Resistance of a battery: as it flies, and under full throttle."""

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.flight.ageing import grown
from builder.compute.formulas.electric.battery import pack_resistance
from builder.compute.formulas.electric.battery_state import cold_resistance
from builder.compute.formulas.electric.reserve import resistance_under_full_throttle
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, FittedPack

_ACTIVATION = assumed("battery/activation")  # K, see cold_resistance
_RESISTANCE_SHARE = assumed("battery/resistance-spread")
_OVER_CHARGER = assumed_list("battery/heavy-resistance")


def resistance_of(
    build: Build, pack: FittedPack, series: Figure, parallel: Figure, warm: MaybeFigure, key: str
) -> MaybeFigure:
    """Resistance of a battery at its temperature and its age."""
    part = pack.part
    best = part.resistance.best() if part.resistance is not None else None
    if best is None:
        cell: MaybeFigure = Unknown(
            f"shelf/{pack.shelf}/resistance",
            "Resistance of a cell",
            (f"cell resistance of battery {pack.key}",),
        )
    else:
        basis, given = best
        own, note = given.spread, ""
        if own is None:
            own = given.value * _RESISTANCE_SHARE
            note = "give or take 20 % (common practice, no source)"
        cell = leaf(
            f"shelf/{pack.shelf}/resistance",
            "Resistance of a cell at 25 °C",
            given.value,
            "Ω",
            own=own,
            basis=basis,
            where=pack.shelf_where.at("resistance"),
            note=note,
        )
    more = grown(build, pack, key)
    if more is not None:
        label = "Resistance of a cell at its age"
        cell = apply(f"{key}/cell-aged", label, formula(resistance_under_full_throttle), cell, more)
    activation = constant(
        "pack/activation",
        "Growth of the resistance in the cold",
        _ACTIVATION,
        "K",
        "common practice, no source",
    )
    cold = apply(
        f"{key}/cell-resistance",
        "Resistance of a cell as it flies",
        formula(cold_resistance),
        cell,
        warm,
        activation,
    )
    return apply(
        f"{key}/resistance",
        "Resistance of the battery",
        formula(pack_resistance),
        cold,
        series,
        parallel,
    )


def heavy_resistance_of(pack: FittedPack, ohms: MaybeFigure, key: str) -> MaybeFigure:
    """Resistance under full throttle: higher, and less well known, than what a charger reads."""
    best = pack.part.resistance.best() if pack.part.resistance is not None else None
    if best is None or best[0] != "measured":
        return ohms
    label, (value, own) = "Under full throttle over what a charger reads", _OVER_CHARGER
    note = "from memory"
    factor = leaf("pack/over-charger", label, value, "1", own=own, basis="estimate", note=note)
    how = formula(resistance_under_full_throttle)
    return apply(
        f"{key}/heavy-resistance", "Resistance of the battery at full throttle", how, ohms, factor
    )
