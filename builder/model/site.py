"""site.yaml: who publishes, and the settings that every build is judged by."""

from typing import Literal

from pydantic import Field

from builder.model.base import Frozen
from builder.model.measures import MoneyText
from builder.model.quantities import (
    Day,
    Duration,
    Frequency,
    Gain,
    Length,
    Level,
    Mass,
    Power,
    Pressure,
    Ratio,
    Share,
    Temperature,
    Text,
    Yes,
)


class ExchangeRate(Frozen):
    """One unit of `from` is `rate` units of `to`, on a day."""

    from_: Text = Field(alias="from")
    to: Text
    rate: Ratio
    dated: Day
    source: Text | None = None


class Spreads(Frozen):
    """One standard deviation, as a share, assumed where the source states none."""

    maker_mass: Share | None = None
    piece_scatter: Share | None = None
    estimate: Share | None = None
    maker_electrical: Share | None = None
    capacity: Share | None = None
    bench_table: Share | None = None
    wire_length: Share | None = None
    drive_efficiency: Share | None = None
    figure_of_merit: Ratio | None = None


class MassLimit(Frozen):
    """A mass that a rule of the air looks at. Strict: the mass must be less; else it may be equal."""

    name: Text
    mass: Mass
    strict: Yes = True
    source: Text | None = None
    dated: Day | None = None
    note: Text | None = None
    applies_to: Literal["all-up", "dry"] = "all-up"


class Allowed(Frozen):
    """A range of frequencies in which transmitting is allowed where it is flown, and up to which e.i.r.p."""

    from_: Frequency = Field(alias="from")
    to: Frequency
    eirp: Power | None = None
    serves: Literal["video", "control", "both"] = "both"
    source: Text | None = None
    dated: Day | None = None
    note: Text | None = None


class FlyingPlace(Frozen):
    """Where it is flown. `pressure` is reduced to sea level, as weather reports give it."""

    name: Text | None = None
    altitude: Length | None = None
    temperature: Temperature | None = None
    pressure: Pressure | None = None


class Radio(Frozen):
    """What is at the other end of the links."""

    video_receive_gain: Gain | None = None
    video_polarisation: Text | None = None
    video_sensitivity: Level | None = None
    fade_margin: Gain | None = None


class Site(Frozen):
    """All settings of a workspace."""

    title: Text
    author: Text | None = None
    address: Text | None = None
    about: Text | None = None
    disclosure: Text | None = None
    invented: Yes = False
    language: Text = "en"
    paper: Literal["A4", "Letter"] = "A4"
    currency: Text = "EUR"
    rates: tuple[ExchangeRate, ...] = ()
    as_of: Day | None = None
    spreads: Spreads = Spreads()
    limits: tuple[MassLimit, ...] = ()
    budget: MoneyText | None = None
    bands: dict[str, dict[str, Frequency]] = Field(
        default_factory=dict, description="The workspace's own channel table: band, channel number, middle frequency."
    )
    allowed: tuple[Allowed, ...] = ()
    place: FlyingPlace = FlyingPlace()
    radio: Radio = Radio()
    price_age: Duration | None = None
    compare: tuple[tuple[Text, ...], ...] = ()
    derivations_on_paper: Yes = True
    dwell_without_air: Duration | None = None
