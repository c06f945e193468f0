"""The closed table of units. Factors to SI are exact ones of NIST SP 811 (2008), appendix B, or
definitions.
"""

from dataclasses import dataclass, field
from math import pi


@dataclass(frozen=True, slots=True)
class Dimension:
    """A physical dimension: the units in which it may be written, with the factor to SI; `zeros` are
    what a unit's zero is in SI, where that is not zero.

    What a quantity can be at all hangs on its field, not on its unit: see `within.py`.
    """

    name: str
    article: str
    units: dict[str, float]
    si: str
    example: str
    zeros: dict[str, float] = field(default_factory=dict)


INCH = 0.0254
POUND = 0.45359237
_LENGTHS = {"mm": 1e-3, "cm": 1e-2, "m": 1.0, "km": 1e3, "in": INCH, "um": 1e-6, "µm": 1e-6}

_TABLE = (
    Dimension(
        "mass",
        "a mass",
        {"g": 1e-3, "mg": 1e-6, "kg": 1.0, "oz": POUND / 16, "lb": POUND},
        "kg",
        "14.3 g",
    ),
    Dimension(
        "change of mass",
        "a change of mass",
        {"g": 1e-3, "mg": 1e-6, "kg": 1.0, "oz": POUND / 16, "lb": POUND},
        "kg",
        "+0.6 g",
    ),
    Dimension("length", "a length", _LENGTHS, "m", "60 mm"),
    Dimension("voltage", "a voltage", {"V": 1.0, "mV": 1e-3, "kV": 1e3}, "V", "5 V"),
    Dimension(
        "current", "a current", {"A": 1.0, "mA": 1e-3, "uA": 1e-6, "µA": 1e-6}, "A", "120 mA"
    ),
    Dimension("power", "a power", {"W": 1.0, "mW": 1e-3, "kW": 1e3}, "W", "400 mW"),
    Dimension(
        "resistance",
        "a resistance",
        {"ohm": 1.0, "Ω": 1.0, "mohm": 1e-3, "mΩ": 1e-3, "kohm": 1e3},
        "ohm",
        "95 mohm",
    ),
    Dimension(
        "capacitance",
        "a capacitance",
        {"F": 1.0, "mF": 1e-3, "uF": 1e-6, "µF": 1e-6, "nF": 1e-9, "pF": 1e-12},
        "F",
        "470 uF",
    ),
    Dimension("charge", "a charge", {"mAh": 3.6, "Ah": 3600.0, "C": 1.0}, "C", "850 mAh"),
    Dimension("energy", "an energy", {"Wh": 3600.0, "J": 1.0, "kJ": 1e3}, "J", "14.8 Wh"),
    Dimension(
        "time",
        "a time",
        {
            "s": 1.0,
            "ms": 1e-3,
            "us": 1e-6,
            "min": 60.0,
            "h": 3600.0,
            "days": 86400.0,
            "day": 86400.0,
            "years": 31557600.0,
            "year": 31557600.0,
        },
        "s",
        "5 min 40 s",
    ),
    Dimension(
        "frequency",
        "a frequency",
        {"Hz": 1.0, "kHz": 1e3, "MHz": 1e6, "GHz": 1e9},
        "Hz",
        "5800 MHz",
    ),
    Dimension(
        "temperature",
        "a temperature",
        {"degC": 1.0, "°C": 1.0, "degF": 5 / 9, "°F": 5 / 9},
        "degC",
        "4 degC",
        {"degF": -160 / 9, "°F": -160 / 9},
    ),
    Dimension("angle", "an angle", {"deg": pi / 180, "°": pi / 180, "rad": 1.0}, "rad", "45 deg"),
    Dimension(
        "speed constant",
        "a speed constant",
        {"rpm/V": 2 * pi / 60, "rad/s/V": 1.0},
        "rad/s/V",
        "3800 rpm/V",
    ),
    Dimension(
        "speed of rotation",
        "a speed of rotation",
        {"rpm": 2 * pi / 60, "rad/s": 1.0},
        "rad/s",
        "24000 rpm",
    ),
    Dimension("speed", "a speed", {"m/s": 1.0, "km/h": 1 / 3.6}, "m/s", "12 m/s"),
    Dimension("pressure", "a pressure", {"Pa": 1.0, "hPa": 100.0, "kPa": 1e3}, "Pa", "1013 hPa"),
    Dimension("share", "a share", {"%": 0.01}, "1", "3 %"),
    Dimension("gain", "an antenna gain", {"dBi": 1.0, "dB": 1.0}, "dB", "1.2 dBi"),
    Dimension("level", "a power level", {"dBm": 1.0}, "dBm", "-90 dBm"),
    Dimension(
        "sensitivity",
        "the sensitivity of a current sensor",
        {"mV/A": 1e-3, "V/A": 1.0},
        "V/A",
        "20 mV/A",
    ),
    Dimension(
        "force",
        "a force",
        {"N": 1.0, "gf": 9.80665e-3, "g": 9.80665e-3, "kgf": 9.80665},
        "N",
        "310 gf",
    ),
    Dimension("density", "a density", {"g/cm3": 1000.0, "kg/m3": 1.0}, "kg/m3", "1.24 g/cm3"),
    Dimension("area", "an area", {"mm2": 1e-6, "mm²": 1e-6, "cm2": 1e-4}, "m2", "0.5 mm2"),
)

DIMENSIONS: dict[str, Dimension] = {d.name: d for d in _TABLE}
