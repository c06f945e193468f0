"""Where a flight on a battery ends by what is written: one answer, which all others are made from."""

from dataclasses import dataclass
from typing import Literal

from builder.compute.formulas.electric.battery_state import (
    resting_volts_lithium_ion,
    resting_volts_lithium_polymer,
)
from builder.diagnostics.where import Where
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, FittedPack

RESERVE = assumed("battery/reserve")  # share of the charge that is kept where nobody says another
# V: what a nearly empty cell recovers off its load, and how unlike that is from one to the next.
_RECOVERY = assumed_list("battery/recovery")
RECOVERY = (_RECOVERY[0], _RECOVERY[1])
VoltsState = Literal["rested", "loaded"]


@dataclass(frozen=True, eq=False)
class Chosen:
    """Where the builder lands by what is written: a share of the charge, or volts of a cell, rested
    or under load. Nothing of it where it is the usual reserve.
    """

    share: float | None
    volts: float | None
    state: VoltsState
    where: Where | None


def chosen_landing(build: Build, pack: FittedPack) -> Chosen:
    """What is written of where a flight on a pack ends, the nearest to the flight first: the build
    of this pack, its setup of all packs, then the shelf of the pack in any build.
    """
    setup = build.source.setup.landing
    if pack.use.landing is not None:
        return Chosen(None, pack.use.landing.value, "loaded", pack.where.at("landing"))
    if setup is not None and setup.share is not None:
        return Chosen(setup.share.value, None, "loaded", build.where("setup", "landing", "share"))
    if setup is not None and setup.volts is not None:
        state = setup.volts_are or "loaded"
        where = build.where("setup", "landing", "volts")
        return Chosen(None, setup.volts.value, state, where)
    if pack.part.landing is not None:
        return Chosen(None, pack.part.landing.value, "loaded", pack.shelf_where.at("landing"))
    return Chosen(None, None, "loaded", None)


def loaded_volts(chosen: Chosen, chemistry: str) -> float:
    """Volts of a cell under load with which a flight ends (V), by what was chosen: a share follows
    the curve of resting volts, and a load takes what the cell recovers without it.
    """
    if chosen.volts is not None:
        return chosen.volts - (RECOVERY[0] if chosen.state == "rested" else 0.0)
    ion = chemistry == "lithium-ion"
    resting = resting_volts_lithium_ion if ion else resting_volts_lithium_polymer
    return resting(RESERVE if chosen.share is None else chosen.share) - RECOVERY[0]
