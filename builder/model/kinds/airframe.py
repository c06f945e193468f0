"""Frame, propeller, hardware and printed parts."""

from typing import Any, ClassVar, Literal

from pydantic import model_validator

from builder.model.base import Frozen
from builder.model.measures import PatternText, PositionText, SizeText
from builder.model.part import Part
from builder.model.quantities import Count, Length, LengthSpan, Ratio, Rotation, Share, Text, Yes

HeadShape = Literal["button", "cap", "socket", "countersunk", "pan", "none"]


class Frame(Part):
    """The structure. `motors` are the middles of the motors, numbered as the builder numbers them.

    `arm_hole` is the diameter of a hole in the arm under the motor's shaft.
    """

    KIND: ClassVar[str] = "frame"
    GROUP: ClassVar[str] = "frame"

    wheelbase: Length | None = None  #: motor to motor across the diagonal
    disc_max: Length | None = None  #: largest propeller that it clears
    arm: Length | None = None  #: thickness of an arm
    arm_hole: Length | None = None  #: diameter of the hole in the arm under the motor's shaft
    patterns: tuple[PatternText, ...] = ()  #: hole patterns for boards
    motor_pattern: PatternText | None = None  #: hole pattern for motors
    posts: Length | None = None  #: height between the plates
    camera_width: LengthSpan | None = None  #: widths of camera that its cheeks take
    bay: SizeText | None = None  #: room for the pack
    strap_slot: Length | None = None  #: width of the slots for straps
    strap_width: Length | None = None  #: widest strap that they take
    motors: dict[str, PositionText] | None = None  #: middles of the motors, numbered as the builder numbers them
    motors_per_arm: Count = 1  #: 2 where motors sit above each other
    ducts: Yes = False  #: yes if rings stand around the propellers
    material: Text | None = None  #: what it is made of


class Mount(Frozen):
    """How a propeller sits on its motor: `two-screw 5 mm`, `shaft nut`, `press`."""

    AS_TEXT: ClassVar[str] = "two-screw 5 mm"

    style: Literal["two-screw", "three-screw", "shaft nut", "press"]  #: how it is held
    spacing: Length | None = None  #: distance of its screws

    @model_validator(mode="before")
    @classmethod
    def _text(cls, value: Any) -> Any:
        if not isinstance(value, str):
            return value
        words = value.strip()
        for style in ("two-screw", "three-screw", "shaft nut", "press"):
            if words.startswith(style):
                rest = words.removeprefix(style).strip()
                return {"style": style, "spacing": rest} if rest else {"style": style}
        return {"style": words}


class Hands(Frozen):
    """How many turn each way in one set: `2+2` is two of each hand."""

    AS_TEXT: ClassVar[str] = "2+2"

    clockwise: Count  #: how many of a set turn clockwise
    counter: Count  #: how many turn counter-clockwise

    @model_validator(mode="before")
    @classmethod
    def _text(cls, value: Any) -> Any:
        if not isinstance(value, str):
            return value
        one, _, other = value.partition("+")
        return {"clockwise": one.strip(), "counter": other.strip() or "0"}


class Propeller(Part):
    """A propeller; `count` in a build counts single propellers."""

    KIND: ClassVar[str] = "propeller"
    GROUP: ClassVar[str] = "propulsion"

    diameter: Length | None = None  #: diameter of its disc
    pitch: Length | None = None  #: how far a turn would screw it forward
    blades: Count | None = None  #: how many blades
    mount: Mount | None = None  #: how it sits on the motor
    bore: Length | None = None  #: diameter of its hole
    hands: Hands | None = None  #: how many turn each way in one set
    nut: Text | None = None  #: thread of its nut
    max_rpm: Rotation | None = None  #: highest speed of rotation
    figure_of_merit: Ratio | None = None  #: ideal power over shaft power at hover, where it was measured


class Hardware(Part):
    """Screws, nuts, posts, washers, straps, grommets."""

    KIND: ClassVar[str] = "hardware"
    GROUP: ClassVar[str] = "hardware"

    thread: Text | None = None  #: its thread
    length: Length | None = None  #: length without head
    head: HeadShape | None = None  #: shape of its head
    head_diameter: Length | None = None  #: diameter of its head
    material: Text | None = None  #: what it is made of
    width: Length | None = None  #: width of a strap


class PrintedPart(Part):
    """A part from a 3-D printer: its file and how it is printed."""

    KIND: ClassVar[str] = "printed-part"
    GROUP: ClassVar[str] = "frame"

    file: Text | None = None  #: file of its shape
    material: Text | None = None  #: what it is printed from
    walls: Count | None = None  #: how many walls
    infill: Share | None = None  #: share of the inside that is filled
    orientation: Text | None = None  #: how it lies on the bed
