"""Frame, propeller, hardware and printed parts."""

from typing import Any, ClassVar, Literal

from pydantic import model_validator

from builder.model.source.part import Part
from builder.model.values.base import Frozen
from builder.model.values.bounds_of_bodies import (
    Blades,
    Bore,
    DiscDiameter,
    FigureOfMerit,
    HardwareLength,
    HardwareWidth,
    Height,
    HolePattern,
    MotorsOnArm,
    PartSize,
    PiecesOrNone,
    PropellerPitch,
    ScrewSpacing,
    Seat,
    ShareOfWhole,
    Thickness,
    Turn,
    Walls,
    Wheelbase,
    Width,
    WidthSpan,
)
from builder.model.values.bounds_of_circuits import MostRevolutions
from builder.model.values.quantities import Text, Yes
from builder.model.values.words import Form, Material

HeadShape = Literal["button", "cap", "socket", "countersunk", "pan", "none"]


class Plate(Frozen):
    """A flat piece of the frame, where it is."""

    what: Text  #: what it is called, such as top plate
    at: Seat  #: its middle: forward, left and up from the middle of the frame's base
    size: PartSize  #: length, width and thickness
    yaw: Turn | None = None  #: how far it is turned, clockwise, seen from above


class Frame(Part):
    """The structure. `motors` are the middles of the motors, numbered as the builder numbers them.

    `arm_hole` is the diameter of a hole in the arm under the motor's shaft.
    """

    KIND: ClassVar[str] = "frame"
    GROUP: ClassVar[str] = "frame"

    wheelbase: Wheelbase | None = None  #: motor to motor across the diagonal
    disc_max: DiscDiameter | None = None  #: largest propeller that it clears
    plates: tuple[Plate, ...] = ()  #: its plates, as boxes that no other part may stand in
    arm: Thickness | None = None  #: thickness of an arm
    arm_width: Width | None = None  #: width of an arm, seen from above
    arm_hole: Bore | None = None  #: diameter of the hole in the arm under the motor's shaft
    patterns: tuple[HolePattern, ...] = ()  #: hole patterns for boards
    motor_pattern: HolePattern | None = None  #: hole pattern for motors
    posts: Height | None = None  #: height between the plates
    camera_width: WidthSpan | None = None  #: widths of camera that its cheeks take
    bay: PartSize | None = None  #: room for the battery
    strap_slot: Width | None = None  #: width of the slots for straps
    strap_width: Width | None = None  #: widest strap that they take
    #: middles of the motors, numbered as the builder numbers them
    motors: dict[str, Seat] | None = None
    motors_per_arm: MotorsOnArm = 1  #: 2 where motors sit above each other
    ducts: Yes = False  #: yes if rings stand around the propellers
    material: Text | None = None  #: what it is made of


class Mount(Frozen):
    """How a propeller sits on its motor: `two-screw 5 mm`, `shaft nut`, `press`."""

    AS_TEXT: ClassVar[str] = "two-screw 5 mm"

    style: Literal["two-screw", "three-screw", "shaft nut", "press"]  #: how it is held
    spacing: ScrewSpacing | None = None  #: distance of its screws

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

    clockwise: PiecesOrNone  #: how many of a set turn clockwise
    counter: PiecesOrNone  #: how many turn counter-clockwise

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

    diameter: DiscDiameter | None = None  #: diameter of its disc
    pitch: PropellerPitch | None = None  #: how far a turn would screw it forward
    blades: Blades | None = None  #: how many blades
    mount: Mount | None = None  #: how it sits on the motor
    bore: Bore | None = None  #: diameter of its hole
    hands: Hands | None = None  #: how many turn each way in one set
    nut: Text | None = None  #: thread of its nut
    max_rpm: MostRevolutions | None = None  #: highest speed of rotation
    #: ideal power over shaft power at hover, where it was measured
    figure_of_merit: FigureOfMerit | None = None


class Hardware(Part):
    """Screws, nuts, posts, washers, straps, grommets."""

    KIND: ClassVar[str] = "hardware"
    GROUP: ClassVar[str] = "hardware"

    #: what it is: screw, nut, strap, sleeve and other words of a list, or 'other: ' and what it is
    form: Form | None = None
    thread: Text | None = None  #: its thread
    length: HardwareLength | None = None  #: length without head
    head: HeadShape | None = None  #: shape of its head
    #: diameter of its head; of a nut, a washer or a spacer, across its corners
    head_diameter: HardwareWidth | None = None
    #: what it is made of: steel, nylon and other words of a list, or 'other: ' and what it is
    material: Material | None = None
    width: HardwareWidth | None = None  #: width of a strap
    #: yes if it keeps itself from turning: a nut with a ring of nylon, a screw with a patch of it
    locking: Yes | None = None


class PrintedPart(Part):
    """A part from a 3-D printer: its file and how it is printed."""

    KIND: ClassVar[str] = "printed-part"
    GROUP: ClassVar[str] = "frame"

    file: Text | None = None  #: file of its shape
    material: Text | None = None  #: what it is printed from
    walls: Walls | None = None  #: how many walls
    infill: ShareOfWhole | None = None  #: share of the inside that is filled
    orientation: Text | None = None  #: how it lies on the bed
