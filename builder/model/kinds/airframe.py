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

    wheelbase: Length | None = None
    disc_max: Length | None = None
    arm: Length | None = None
    arm_hole: Length | None = None
    patterns: tuple[PatternText, ...] = ()
    motor_pattern: PatternText | None = None
    posts: Length | None = None
    camera_width: LengthSpan | None = None
    bay: SizeText | None = None
    strap_slot: Length | None = None
    strap_width: Length | None = None
    motors: dict[str, PositionText] | None = None
    motors_per_arm: Count = 1
    ducts: Yes = False
    material: Text | None = None


class Mount(Frozen):
    """How a propeller sits on its motor: `two-screw 5 mm`, `shaft nut`, `press`."""

    style: Literal["two-screw", "three-screw", "shaft nut", "press"]
    spacing: Length | None = None

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

    clockwise: Count
    counter: Count

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

    diameter: Length | None = None
    pitch: Length | None = None
    blades: Count | None = None
    mount: Mount | None = None
    bore: Length | None = None
    hands: Hands | None = None
    nut: Text | None = None
    max_rpm: Rotation | None = None
    figure_of_merit: Ratio | None = None


class Hardware(Part):
    """Screws, nuts, posts, washers, straps, grommets."""

    KIND: ClassVar[str] = "hardware"
    GROUP: ClassVar[str] = "hardware"

    thread: Text | None = None
    length: Length | None = None
    head: HeadShape | None = None
    head_diameter: Length | None = None
    material: Text | None = None
    width: Length | None = None


class PrintedPart(Part):
    """A part from a 3-D printer: its file and how it is printed."""

    KIND: ClassVar[str] = "printed-part"
    GROUP: ClassVar[str] = "frame"

    file: Text | None = None
    material: Text | None = None
    walls: Count | None = None
    infill: Share | None = None
    orientation: Text | None = None
