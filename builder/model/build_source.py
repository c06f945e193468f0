"""A build as a person writes it: build.yaml, field by field."""

from typing import Any, Literal

from pydantic import Field, model_validator

from builder.model.base import Frozen, SourcedMass
from builder.model.electrical import Names
from builder.model.measures import GaugeText, MoneyText, PositionText
from builder.model.part import Price
from builder.model.quantities import (
    Angle,
    Charge,
    Count,
    Day,
    Duration,
    Length,
    Mass,
    Temperature,
    Text,
    Voltage,
    Yes,
)
from builder.model.setup_source import Setup

Status = Literal["planned", "on the bench", "flying", "retired"]
Doing = Literal["fit", "tin", "solder", "cover", "mount", "plug", "check"]


class PartUse(Frozen):
    """A shelf part in its place in the build. `at`, `face` and `yaw` say where it sits."""

    use: Text
    count: Count = 1
    spares: Count = 0
    at: PositionText | None = None
    each_at: tuple[PositionText, ...] = ()
    face: Literal["up", "down"] = "up"
    yaw: Angle | None = None
    note: Text | None = None
    price: Price | None = None
    alternatives: Names = ()
    set: Text | None = None
    owned: Yes | None = None

    @model_validator(mode="before")
    @classmethod
    def _name_alone(cls, value: Any) -> Any:
        return {"use": value} if isinstance(value, str) else value


class PackUse(Frozen):
    """A flight battery that the build flies on; `parallel` packs of it are joined."""

    use: Text
    count: Count = 1
    parallel: Count = 1
    at: PositionText | None = None
    temperature: Temperature | None = None
    landing: Voltage | None = None
    note: Text | None = None

    @model_validator(mode="before")
    @classmethod
    def _name_alone(cls, value: Any) -> Any:
        return {"use": value} if isinstance(value, str) else value


class Weighed(Frozen):
    """A reading of a scale: dry, or all-up with the pack named."""

    what: Text
    mass: Mass
    scale: Mass | None = None
    date: Day | None = None
    note: Text | None = None


class Wire(Frozen):
    """A wire between two contacts; `lead: fitted` is one that a maker fitted to the part named in `from`."""

    from_: Text = Field(alias="from")
    to: Text
    colour: Text | None = None
    gauge: GaugeText | None = None
    length: Length | None = None
    route: Length | None = None
    lead: Literal["fitted"] | None = None
    trim_to: Length | None = None
    twisted: Yes = False
    note: Text | None = None


class Plug(Frozen):
    """Two sockets joined by a cable; which contact reaches which is derived from how it lies."""

    from_: Text = Field(alias="from")
    to: Text
    cable: Literal["straight", "reversed"] | dict[str, Text] | None = None
    use: Text | None = None
    note: Text | None = None


class Layer(Frozen):
    """One layer that a screw passes through."""

    what: Text
    thick: Length


class Screw(Frozen):
    """Screws of one place: what they pass through, what they grip, what lies behind their end."""

    place: Text
    use: Text
    count: Count
    through: tuple[Layer, ...] = ()
    into: Text | None = None
    depth: Length | None = None
    behind: Text | None = None
    lock: Yes = False
    washer: Length | None = None
    note: Text | None = None


class BuildStep(Frozen):
    """A step of the builder's own, placed by `before` and `after`."""

    id: Text
    do: Doing = "fit"
    text: Text
    before: Names = ()
    after: Names = ()
    part: Text | None = None
    photo: Text | None = None
    alt: Text | None = None
    side: Text | None = None
    covers: Names = ()
    expect: Text | None = None
    reason: Text | None = None


class Flight(Frozen):
    """One flight of the log. `grounded` is time with motors idle, `wind` words; `used` what the charger put back."""

    date: Day
    pack: Text
    airborne: Duration
    grounded: Duration | None = None
    air: Temperature | None = None
    pack_temperature: Temperature | None = None
    used: Charge | None = None
    landed_at: Voltage | None = None
    style: Text | None = None
    propeller: Text | None = None
    note: Text | None = None
    leave_out: Yes = False


class Change(Frozen):
    """A line of the change log."""

    date: Day
    text: Text


class Question(Frozen):
    """What strangers ask, and the answer."""

    ask: Text
    answer: Text
    id: Text | None = None


class Incident(Frozen):
    """What broke: date, what, replaced parts, what it cost and what it did to the mass."""

    date: Day
    what: Text
    replaced: Names = ()
    cost: MoneyText | None = None
    mass: Text | None = None
    note: Text | None = None


class Maintenance(Frozen):
    """What was done to keep it flying."""

    date: Day
    what: Text
    flights: Count | None = None
    cost: MoneyText | None = None
    note: Text | None = None


class AsBuilt(Frozen):
    """What came back from the bench: a deviation or a reading."""

    date: Day
    step: Text | None = None
    text: Text | None = None
    measured: Text | None = None


class Chapter(Frozen):
    """A time stamp of a recording that goes with the build."""

    at: Text
    text: Text


class Photo(Frozen):
    """A picture of the build."""

    file: Text
    alt: Text
    side: Text | None = None
    caption: Text | None = None


class OwnMass(Frozen):
    """Mass that no part carries: glue, ties, solder not counted by joint."""

    what: Text
    mass: SourcedMass


class BuildSource(Frozen):
    """build.yaml, after the variant's base was merged in."""

    title: Text
    summary: Text = ""
    revised: Day | None = None
    status: Status = "planned"
    based_on: Text | None = None
    author: Text | None = None
    invented: Text | None = None
    hero: Photo | None = None
    photos: tuple[Photo, ...] = ()
    parts: dict[str, PartUse] = Field(default_factory=dict)
    packs: dict[str, PackUse] = Field(default_factory=dict)
    weighed: tuple[Weighed, ...] = ()
    extra_mass: tuple[OwnMass, ...] = ()
    wires: tuple[Wire, ...] = ()
    plugs: tuple[Plug, ...] = ()
    screws: tuple[Screw, ...] = ()
    steps: tuple[BuildStep, ...] = ()
    setup: Setup = Setup()
    flights: tuple[Flight, ...] = ()
    changes: tuple[Change, ...] = ()
    questions: tuple[Question, ...] = ()
    incidents: tuple[Incident, ...] = ()
    maintenance: tuple[Maintenance, ...] = ()
    as_built: tuple[AsBuilt, ...] = ()
    chapters: tuple[Chapter, ...] = ()
    accept: dict[str, Text] = Field(default_factory=dict)
