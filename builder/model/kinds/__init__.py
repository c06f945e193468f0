"""One class a kind of part; KINDS finds the class by the word."""

from builder.model.kinds.airframe import Frame, Hardware, PrintedPart, Propeller
from builder.model.kinds.bench import Consumable, GroundGear, Other, Payload, Tool
from builder.model.kinds.boards import CombinedBoard, FlightController, SpeedController
from builder.model.kinds.drive import Capacitor, Motor, Pack
from builder.model.kinds.joins import Antenna, Cable, Connector
from builder.model.kinds.onboard import (
    Buzzer,
    Camera,
    Compass,
    Lights,
    Receiver,
    SatelliteReceiver,
    VideoTransmitter,
)
from builder.model.source.part import Part

_CLASSES: tuple[type[Part], ...] = (
    Frame,
    Motor,
    Propeller,
    SpeedController,
    FlightController,
    CombinedBoard,
    Camera,
    VideoTransmitter,
    Receiver,
    Antenna,
    Pack,
    Capacitor,
    Connector,
    Cable,
    SatelliteReceiver,
    Compass,
    Buzzer,
    Lights,
    Payload,
    Hardware,
    PrintedPart,
    Consumable,
    Tool,
    GroundGear,
    Other,
)
KINDS: dict[str, type[Part]] = {c.KIND: c for c in _CLASSES}

__all__ = [
    "KINDS",
    "Antenna",
    "Buzzer",
    "Cable",
    "Camera",
    "Capacitor",
    "CombinedBoard",
    "Compass",
    "Connector",
    "Consumable",
    "FlightController",
    "Frame",
    "GroundGear",
    "Hardware",
    "Lights",
    "Motor",
    "Other",
    "Pack",
    "Part",
    "Payload",
    "PrintedPart",
    "Propeller",
    "Receiver",
    "SatelliteReceiver",
    "SpeedController",
    "Tool",
    "VideoTransmitter",
]
