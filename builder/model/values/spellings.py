"""How people write units and decimals, besides the ways of the table: each spelling has one reading.

What could be read in two ways is a mistake that names both; nothing is guessed.
"""

import re
from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType

# Signs that look alike or stand for another: the ohm and micro signs of Unicode's compatibility
# blocks, primes and quotation marks, the ordinal that keyboards have in place of the degree.
_ALIKE = str.maketrans("\u2126\u03bc\u2033\u201d\u201c\u00ba\u2212", 'Ωµ"""°-')
# Words by dimension, each unit of the table before its own; every word is understood in small
# letters, in capitals and with one capital.
_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "mass": "g gram grams gramme grammes; mg milligrams; kg kilogram kilograms kgs;"
        " oz ounce ounces; lb lbs pound pounds",
        "length": "mm millimetre millimetres millimeter millimeters; cm centimetres centimeters;"
        " m metre metres meter meters; in inch inches in.",
        "voltage": "V volt volts; mV millivolts",
        "current": "A amp amps ampere amperes; mA milliamps milliamperes",
        "power": "W watt watts; mW milliwatts",
        "resistance": "ohm ohms; mohm milliohm milliohms mohms",
        "capacitance": "uF microfarad microfarads",
        "time": "s sec secs second seconds; min mins minute minutes; h hr hrs hour hours",
        "temperature": "degC celsius; degF fahrenheit",
        "angle": "deg degree degrees",
        "speed constant": "rpm/V kv",
    }
)
# Single spellings, as they stand: signs, and letters whose size would otherwise say something.
_AS_IT_STANDS: Mapping[str, str] = MappingProxyType(
    {
        "mass": "g G; kg Kg KG; oz OZ Oz; lb LB Lb",
        "length": "in \" '' IN In; mm MM; cm CM",
        "voltage": "V v; mV mv",
        "current": "A a; mA ma",
        "power": "W w; mW mw; kW kw KW",
        "resistance": "ohm Ohm OHM; mohm mOhm; kohm kOhm kΩ KΩ",
        "capacitance": "uF uf UF; µF µf",
        "charge": "mAh mah MAH MAh Mah; Ah ah AH",
        "time": "s S sec.; min min. Min; h H",
        "frequency": "Hz hz; kHz khz KHz; MHz mhz Mhz MHZ; GHz ghz Ghz GHZ",
        "temperature": "degC C c \u2103; degF F f \u2109",
        "speed constant": "rpm/V rpm/v RPM/V Kv",
        "speed of rotation": "rpm RPM Rpm",
        "level": "dBm dbm DBM",
        "gain": "dBi dbi DBI; dB db",
        "force": "g gram grams",
    }
)
# Units of two kinds that share a spelling: what each would be.
_TWO_UNITS: Mapping[str, Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "mass": {"gr": ("g (grams)", "grains of 0.0648 g")},
        "time": {"m": ("min (minutes)", "ms (milliseconds)")},
    }
)
# A number alone: turns are counted by the minute everywhere, and by volt for the speed constant.
_ALONE: Mapping[str, str] = MappingProxyType(
    {"speed of rotation": "rpm", "speed constant": "rpm/V"}
)
_OF_NOTHING: Mapping[str, str] = MappingProxyType({"length": "mm", "angle": "deg"})  # 0 mm is 0 in
_GROUPED = re.compile(r"[1-9]\d{0,2}(?:,\d{3})+")
_POINTED = re.compile(r"[1-9]\d{0,2}(?:\.\d{3})+")
_DIGITS = re.compile(r"\d[\d.,]*\d")


class TwoReadings(Exception):
    """A text that says two things: how each would be written."""

    def __init__(self, first: str, second: str) -> None:
        self.first, self.second = first, second
        super().__init__(f"{first} or {second}")


def unit_of_number(number: str, dimension: str) -> str | None:
    """The unit of a number that is written without one; None where it could be several.

    >>> unit_of_number("24000", "speed of rotation")
    'rpm'
    >>> unit_of_number("0", "length"), unit_of_number("3", "length")
    ('mm', None)
    """
    units = _OF_NOTHING if float(number) == 0.0 else _ALONE
    return units.get(dimension, _ALONE.get(dimension))


def number_alone(dimension: str) -> str:
    """A pattern for the numbers of a dimension that need no unit; '' for none."""
    if dimension in _OF_NOTHING:
        return r"0+(?:\.0*)?"
    return r"\d[\d.,]*" if dimension in _ALONE else ""


@cache
def spellings_of(dimension: str) -> Mapping[str, str]:
    """Every other spelling of a dimension's units, with the unit that it means."""
    like = _like(dimension)
    words = _table(_WORDS.get(like, ""))
    sized = {way: unit for word, unit in words.items() for way in _sizes(word)}
    return MappingProxyType(sized | _table(_AS_IT_STANDS.get(like, "")))


def _like(dimension: str) -> str:
    """The dimension whose units are spelled alike."""
    return "mass" if dimension == "change of mass" else dimension


def _table(text: str) -> dict[str, str]:
    """`g gram grams; oz ounce` as spellings with their units."""
    groups = (group.split() for group in text.split(";") if group.strip())
    return {word: unit for unit, *words in groups for word in words}


def _sizes(word: str) -> Iterable[str]:
    return word, word.upper(), word.capitalize()


def common_signs(text: str) -> str:
    """The text with the common one of signs that look alike."""
    return text.translate(_ALIKE)


def two_units(unit: str, dimension: str, units: Iterable[str]) -> tuple[str, str] | None:
    """Both readings of a unit that can mean two; None for one that cannot.

    A capital M in place of a small one makes a thousandth a million.
    """
    listed = _TWO_UNITS.get(_like(dimension), {}).get(unit)
    if listed is not None:
        return listed
    small = f"m{unit[1:]}"
    if unit.startswith("M") and small in units:
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
