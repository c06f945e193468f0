"""Share of the charge that is left, by the volts of a cell."""

from builder.compute.circuit.landing_choice import RECOVERY
from builder.compute.figures.figure import MaybeFigure, apply, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.electric.battery_state import (
    charge_share_lithium_ion,
    charge_share_lithium_polymer,
)
from builder.compute.formulas.electric.flight_log import rested_volts


def share_by_volts(chemistry: str, cell: MaybeFigure, key: str) -> MaybeFigure:
    """Share of the charge left by the volts of a cell (V) that were seen at landing, under load."""
    recovery = leaf(
        "pack/recovery",
        "Recovery of a cell off its load",
        RECOVERY[0],
        "V",
        own=RECOVERY[1],
        basis="estimate",
        note="common practice, no source",
    )
    rested = apply(
        f"{key}/cell-rested",
        "Volts of a cell rested after landing",
        formula(rested_volts),
        cell,
        recovery,
    )
    shares = (
        charge_share_lithium_ion if chemistry == "lithium-ion" else charge_share_lithium_polymer
    )
    return apply(
        f"{key}/share-by-volts", "Share of the charge left, by its volts", formula(shares), rested
    )


def share_by_rested_volts(chemistry: str, cell: MaybeFigure, key: str) -> MaybeFigure:
    """Share of the charge left by the volts of a cell (V) that has rested."""
    shares = (
        charge_share_lithium_ion if chemistry == "lithium-ion" else charge_share_lithium_polymer
    )
    return apply(
        f"{key}/share-by-volts", "Share of the charge left, by its volts", formula(shares), cell
    )
