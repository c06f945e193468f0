"""What happened to an aircraft, as a person writes it: weighings, flights, changes, what broke."""

from pydantic import Field

from builder.model.source.electrical import Names
from builder.model.values.base import Frozen
from builder.model.values.bounds_of_bodies import (
    Airborne,
    AirTemperature,
    ChangeOfMass,
    Cycles,
    Dated,
    MoneyAmount,
    OnGround,
    PackTemperature,
    ScaleStep,
    WeighedMass,
)
from builder.model.values.bounds_of_circuits import PackVoltage, UsedCharge
from builder.model.values.quantities import AnyAmount, Text, Yes


class Weighed(Frozen):
    """A reading of a scale: dry, or flying with the battery named. Dry is without battery and payload,
    flying with both.

    Some parts alone may be weighed too (`parts`), and an aircraft that is not complete yet
    (`without`).
    """

    #: what lay on the scale: dry (no battery, no payload), the name of a battery (battery and
    #: payload on), or parts
    what: Text
    mass: WeighedMass  #: what the scale showed
    scale: ScaleStep | None = None  #: resolution of the scale
    scale_name: Text | None = None  #: which scale; readings of one scale share its error
    parts: Names = ()  #: with what: parts, those that lay there, all their pieces; batteries too
    without: Names = ()  #: with what: dry, the parts that were not on it yet
    date: Dated | None = None  #: the day
    note: Text | None = None  #: a remark


class Flight(Frozen):
    """One flight of the log. `grounded` is time with motors idle, `used` what the charger put back;
    the wind stands in `note`.
    """

    date: Dated  #: the day
    pack: Text  #: the battery, as the build names it
    airborne: Airborne  #: time in the air
    grounded: OnGround | None = None  #: time with power on and motors still
    air: AirTemperature | None = None  #: how warm the air was
    pack_temperature: PackTemperature | None = None  #: how warm the battery was at the start
    used: UsedCharge | None = None  #: what the charger put back
    #: yes if it was flown until the alarm, and neither charge nor volts were noted
    until_alarm: Yes = False
    landed_at: PackVoltage | None = None  #: volts of the battery as it lands, still in the air
    style: Text | None = None  #: how it was flown, in a word
    propeller: Text | None = None  #: the propeller on the shelf, if not the build's own
    note: Text | None = None  #: a remark, such as the wind
    leave_out: Yes = False  #: yes if predictions should not learn from it


class Change(Frozen):
    """A line of the change log."""

    date: Dated  #: the day
    text: Text  #: what changed
    chapters: Names = ()  #: chapters of the guide that it changed
    #: figures as they were before, by their key: `mass/all-up-small: 231.0 g`
    was: dict[str, AnyAmount] = Field(default_factory=dict)
    added: Names = ()  #: parts of the build that were fitted that day
    mass: ChangeOfMass | None = None  #: what it did to the weight, such as +1.2 g


class Question(Frozen):
    """What strangers ask, and the answer."""

    ask: Text  #: what people ask
    answer: Text  #: the answer
    id: Text | None = None  #: its anchor on the page, where the words should not decide


class Incident(Frozen):
    """What broke: date, what, replaced parts, what it cost and what it did to the mass."""

    date: Dated  #: the day
    what: Text  #: what broke and how
    replaced: Names = ()  #: parts that were replaced, as the build names them
    cost: MoneyAmount | None = None  #: what it cost
    mass: ChangeOfMass | None = None  #: what it did to the weight, such as +0.6 g
    note: Text | None = None  #: a remark


class Maintenance(Frozen):
    """What was done to keep it flying, with what it did to the mass."""

    date: Dated  #: the day
    what: Text  #: what was done
    replaced: Names = ()  #: parts that were replaced, as the build names them
    flights: Cycles | None = None  #: after how many flights
    cost: MoneyAmount | None = None  #: what it cost
    mass: ChangeOfMass | None = None  #: what it did to the weight, such as -0.2 g
    note: Text | None = None  #: a remark


class AsBuilt(Frozen):
    """What came back from the bench: a deviation or a reading."""

    date: Dated  #: the day
    step: Text | None = None  #: the step or wire that it is about
    #: where it was read: a contact (controller.5V1), or a motor (motor.3) whose turn was seen
    at: Text | None = None
    text: Text | None = None  #: what was done otherwise
    measured: Text | None = None  #: what was read


class CopyReport(Frozen):
    """Found by others who built it after this one: words, which no figure reads."""

    by: Text  #: who built it
    title: Text | None = None  #: title of their build
    found: tuple[Text, ...] = ()  #: what they found, a sentence each
