"""How people write units and decimals, besides the ways of the table: each spelling has one reading.

What could be read in two ways is a mistake that names both; nothing is guessed.
"""

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType

# Signs that look alike or stand for another: the ohm and micro signs of Unicode's compatibility
# blocks, primes and quotation marks, the ordinal that keyboards have in place of the degree.
_ALIKE = str.maketrans(
    {
        "\u2126": "Ω",
        "\u03bc": "µ",
        "\u2033": '"',
        "\u201d": '"',
        "\u201c": '"',
        "\u00ba": "°",
        "\u2103": "°C",
        "\u2109": "°F",
    }
)
# Words by dimension; each is understood in small letters, in capitals and with one capital.
_WORDS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "mass": {
            "gram": "g",
            "grams": "g",
            "gramme": "g",
            "grammes": "g",
            "milligrams": "mg",
            "kilogram": "kg",
            "kilograms": "kg",
            "kgs": "kg",
            "ounce": "oz",
            "ounces": "oz",
            "lbs": "lb",
            "pound": "lb",
            "pounds": "lb",
        },
        "length": {
            "millimetre": "mm",
            "millimetres": "mm",
            "millimeter": "mm",
            "millimeters": "mm",
            "centimetres": "cm",
            "centimeters": "cm",
            "metre": "m",
            "metres": "m",
            "meter": "m",
            "meters": "m",
            "inch": "in",
            "inches": "in",
            "in.": "in",
        },
        "voltage": {"volt": "V", "volts": "V", "millivolts": "mV"},
        "current": {
            "amp": "A",
            "amps": "A",
            "ampere": "A",
            "amperes": "A",
            "milliamps": "mA",
            "milliamperes": "mA",
        },
        "power": {"watt": "W", "watts": "W", "milliwatts": "mW"},
        "resistance": {"ohms": "ohm", "milliohm": "mohm", "milliohms": "mohm", "mohms": "mohm"},
        "capacitance": {"microfarad": "uF", "microfarads": "uF"},
        "time": {
            "sec": "s",
            "secs": "s",
            "second": "s",
            "seconds": "s",
            "mins": "min",
            "minute": "min",
            "minutes": "min",
            "hr": "h",
            "hrs": "h",
            "hour": "h",
            "hours": "h",
        },
        "temperature": {"celsius": "degC", "fahrenheit": "degF"},
        "angle": {"degree": "deg", "degrees": "deg"},
        "speed constant": {"kv": "rpm/V"},
    }
)
# Single spellings, as they stand: signs, and letters whose size would otherwise say something.
_AS_IT_STANDS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "mass": {"G": "g", "Kg": "kg", "KG": "kg", "OZ": "oz", "Oz": "oz", "LB": "lb", "Lb": "lb"},
        "length": {'"': "in", "''": "in", "MM": "mm", "CM": "cm", "IN": "in", "In": "in"},
        "voltage": {"v": "V", "mv": "mV"},
        "current": {"a": "A", "ma": "mA"},
        "power": {"w": "W", "mw": "mW", "kw": "kW", "KW": "kW"},
        "resistance": {
            "Ohm": "ohm",
            "OHM": "ohm",
            "mOhm": "mohm",
            "kOhm": "kohm",
            "kΩ": "kohm",
            "KΩ": "kohm",
        },
        "capacitance": {"uf": "uF", "UF": "uF", "µf": "µF"},
        "charge": {"mah": "mAh", "MAH": "mAh", "MAh": "mAh", "Mah": "mAh", "ah": "Ah", "AH": "Ah"},
        "time": {"S": "s", "sec.": "s", "min.": "min", "Min": "min", "H": "h"},
        "frequency": {"hz": "Hz", "khz": "kHz", "KHz": "kHz", "mhz": "MHz", "Mhz": "MHz"}
        | {"MHZ": "MHz", "ghz": "GHz", "Ghz": "GHz", "GHZ": "GHz"},
        "temperature": {"C": "degC", "c": "degC", "ºC": "degC", "F": "degF", "f": "degF"},
        "speed constant": {"rpm/v": "rpm/V", "RPM/V": "rpm/V", "Kv": "rpm/V"},
        "speed of rotation": {"RPM": "rpm", "Rpm": "rpm"},
        "level": {"dbm": "dBm", "DBM": "dBm"},
        "gain": {"dbi": "dBi", "DBI": "dBi", "db": "dB"},
    }
)
# Units of two kinds that share a spelling: what each would be.
_TWO_UNITS: Mapping[str, Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "mass": {"gr": ("g (grams)", "grains of 0.0648 g")},
        "time": {"m": ("min (minutes)", "ms (milliseconds)")},
    }
)
_GROUPED = re.compile(r"[1-9]\d{0,2}(?:,\d{3})+")
_POINTED = re.compile(r"[1-9]\d{0,2}(?:\.\d{3})+")
_DIGITS = re.compile(r"\d[\d.,]*\d")


class TwoReadings(Exception):
    """A text that says two things: how each would be written."""

    def __init__(self, first: str, second: str) -> None:
        self.first, self.second = first, second
        super().__init__(f"{first} or {second}")


def spellings_of(dimension: str) -> Mapping[str, str]:
    """Every other spelling of a dimension's units, with the unit that it means."""
    like = "mass" if dimension == "change of mass" else dimension
    words = _WORDS.get(like, {})
    sized = {way: unit for word, unit in words.items() for way in _sizes(word)}
    force = dict.fromkeys(("gram", "grams"), "g") if dimension == "force" else {}
    return sized | dict(_AS_IT_STANDS.get(like, {})) | force


def _sizes(word: str) -> Iterable[str]:
    return word, word.upper(), word.capitalize()


def alike(text: str) -> str:
    """The text with the common one of signs that look alike."""
    return text.translate(_ALIKE)


def two_units(unit: str, dimension: str, units: Iterable[str]) -> tuple[str, str] | None:
    """Both readings of a unit that can mean two; None for one that cannot.

    A capital M in place of a small one makes a thousandth a million.
    """
    like = "mass" if dimension == "change of mass" else dimension
    listed = _TWO_UNITS.get(like, {}).get(unit)
    if listed is not None:
        return listed
    small = f"m{unit[1:]}"
    if unit.startswith("M") and len(unit) > 1 and small in units:
        return f"{small} (thousandths)", f"{unit} (millions)"
    return None


def _one_number(text: str) -> str:
    """One run of digits, points and commas with a decimal point and nothing between the digits."""
    if "," not in text:
        return text
    if "." in text:
        return _both_signs(text)
    if text.count(",") > 1:
        return text.replace(",", "") if _GROUPED.fullmatch(text) else text
    if _GROUPED.fullmatch(text):
        raise TwoReadings(text.replace(",", "."), text.replace(",", ""))
    return text.replace(",", ".")


def _both_signs(text: str) -> str:
    """A number with points and commas: the last sign parts the decimals, the other the thousands."""
    mark = max(",.", key=text.rfind)
    whole, _, decimals = text.rpartition(mark)
    other = "." if mark == "," else ","
    thousands = _POINTED if other == "." else _GROUPED
    sound = thousands.fullmatch(whole) is not None
    return f"{whole.replace(other, '')}.{decimals}" if sound else text


def decimal_points(text: str) -> str:
    """The text with each number's decimals behind a point. TwoReadings for one that can be read as
    thousands too, each with the whole text around it.
    """
    out, end = "", 0
    for found in _DIGITS.finditer(text):
        before, after = text[end : found.start()], text[found.end() :]
        try:
            number = _one_number(found[0])
        except TwoReadings as two:
            first, second = (f"{out}{before}{way}{after}" for way in (two.first, two.second))
            raise TwoReadings(first, second) from None
        out += before + number
        end = found.end()
    return out + text[end:]
