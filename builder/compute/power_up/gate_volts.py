"""Volts to expect under power, each where a probe reaches its net."""

from collections.abc import Collection
from dataclasses import dataclass, replace

from builder.compute.circuit.nets import Netlist
from builder.compute.power_up.open_pads import ProbeReach, live_place
from builder.load.assumed import assumed
from builder.model.build import Build, Contact

METER_VOLTS = assumed("first power-up/meter-volts")


@dataclass(frozen=True)
class RailReading:
    """Volts to expect once power is on: at which contact, in place of which others, and how it is
    reached.

    `low` and `high` are those of the board or of the supply; `read_low` and `read_high` what a hand
    meter may show of them. `suspects` are the joints that a wrong reading points to.
    """

    contact: str
    low: float
    high: float
    nominal: float
    instead_of: tuple[str, ...] = ()
    reach: ProbeReach = "open"
    suspects: tuple[str, ...] = ()

    @property
    def read_low(self) -> float:
        """The least that the meter may show, with its own error."""
        return self.low * (1.0 - METER_VOLTS)

    @property
    def read_high(self) -> float:
        """The most that the meter may show, with its own error."""
        return self.high * (1.0 + METER_VOLTS)


def volts_at(
    build: Build,
    nets: Netlist,
    contact: Contact,
    band: tuple[float, float, float],
    on: Collection[str],
) -> RailReading:
    """Volts of a contact (least, most, nominal), where a probe reaches its net. `on` are the parts
    connected by now.
    """
    place = live_place(build, nets, contact, on)
    moved = () if place.contact == contact else (str(contact),)
    return RailReading(str(place.contact), *band, moved, place.reach)


def each_once(volts: list[RailReading]) -> list[RailReading]:
    """Readings that moved to one place are one reading."""
    out: dict[str, RailReading] = {}
    for v in volts:
        before = out.get(v.contact)
        instead = dict.fromkeys((*(before.instead_of if before is not None else ()), *v.instead_of))
        out[v.contact] = replace(before or v, instead_of=tuple(instead))
    return list(out.values())
