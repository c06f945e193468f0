"""Numbers become text: the only place that rounds. Half away from zero, as the page's script does
too.

It knows nobody, so that rules word their findings with the same rounding as pages show their
numbers.
"""

from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal
from math import floor, log10

MINUS = "\u2212"
# Pages' unit for each SI unit: factor and how many decimals a plain number shows.
SHOWN = {
    "kg": ("g", 1000.0, 1),
    "m": ("mm", 1000.0, 1),
    "V": ("V", 1.0, 2),
    "A": ("A", 1.0, 2),
    "W": ("W", 1.0, 1),
    "ohm": ("Ω", 1.0, 3),
    "Ω": ("Ω", 1.0, 3),
    "C": ("mAh", 1 / 3.6, 0),
    "J": ("Wh", 1 / 3600.0, 2),
    "s": ("min", 1 / 60.0, 1),
    "N": ("N", 1.0, 2),
    "1": ("", 1.0, 2),
    "K": ("K", 1.0, 1),
    "degC": ("°C", 1.0, 1),
    "kg/m³": ("kg/m³", 1.0, 3),
    "m²": ("cm²", 1e4, 1),
    "m/s": ("m/s", 1.0, 1),
    "rad/s": ("rpm", 9.549296585513721, 0),
    "rad/(V.s)": ("rpm/V", 9.549296585513721, 0),
    "Hz": ("MHz", 1e-6, 0),
    "dB": ("dB", 1.0, 1),
    "rad": ("°", 57.29577951308232, 0),
    "F": ("µF", 1e6, 0),
    "Pa": ("hPa", 0.01, 1),
    "N/m²": ("N/m²", 1.0, 1),
}


_SMALL_FLOAT, _LARGE_FLOAT, _FEW = (
    1e-4,
    1e6,
    9,
)  # between the two a float reads without a power, and has the digits


def rounded(value: float, decimals: int) -> str:
    """A number with fixed decimals, half away from zero, with a true minus sign; never '-0'."""
    digits = repr(value)
    if digits[-1] != "5" and _SMALL_FLOAT <= abs(value) < _LARGE_FLOAT and 0 <= decimals <= _FEW:
        text = (  # its last digit is not half way to another: the binary value rounds alike
            f"{value:.{decimals}f}"
        )
    else:
        text = f"{Decimal(digits).quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP):f}"
    if text[0] != "-":
        return text
    return (MINUS if text.strip("-0.") else "") + text[1:]


def rounded_down(value: float, decimals: int) -> str:
    """A number above 0 cut after fixed decimals: a time to be kept is never shown longer."""
    cut = Decimal(repr(value)).quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_FLOOR)
    return rounded(float(cut), decimals)


def decimals_for(spread: float, least: int = 0, most: int = 4) -> int:
    """Decimals that show a spread with one to two significant digits."""
    if spread <= 0:
        return most
    digits = -floor(log10(spread))
    if spread * 10**digits < 2:
        digits += 1
    return max(least, min(most, digits))


ShownUnit = tuple[str, float, int]  # the unit that is shown, the factor to it, its usual decimals
MILLIWATTS: ShownUnit = (
    "mW",
    1000.0,
    1,
)  # what a transmitter sends, as the trade and the law say it
_SMALL = {"J": ("J", 1.0, 1), "s": ("s", 1.0, 1)}  # below a watt-hour and a minute


def usual_unit(unit: str) -> tuple[str, float, int]:
    """The unit in which pages show a value of an SI unit, the factor to it, and its usual decimals."""
    return SHOWN.get(unit, (unit, 1.0, 2))


def unit_for(value: float, unit: str) -> tuple[str, float, int]:
    """As `usual_unit`, but a small amount goes by a smaller unit, and a long way by metres."""
    shown, factor, decimals = usual_unit(unit)
    if unit in _SMALL and abs(value) * factor < 1:
        return _SMALL[unit]
    if unit == "m" and abs(value) >= 10:
        return "m", 1.0, 1
    return shown, factor, decimals


def counted(number: int, one: str, many: str = "") -> str:
    """`1 flight`, `2 flights`; `many` where it is not `one` with an s."""
    if number == 1:
        return f"1 {one}"
    return f"{number} {many or one + 's'}"


def chance_words(value: float, decimals: int = 0) -> tuple[str, str]:
    """A chance (0 to 1) as per cent that never rounds to certainty: 'under' or 'over' where it
    would, and the number.
    """
    percent, least = 100 * value, 10.0**-decimals
    if percent < least:
        return "under", rounded(least, decimals)
    if percent > 100 - least:
        return "over", rounded(100 - least, decimals)
    return "", rounded(percent, decimals)


def significant(value: float, digits: int = 6) -> str:
    """A number to so many significant digits, as derivations show it; powers of ten where it is
    very small or large.
    """
    if value == 0:
        return "0"
    written = repr(value)
    if len(written) <= digits and _SMALL_FLOAT <= value < _LARGE_FLOAT:
        return written.removesuffix(".0")  # it has no more digits than are asked for
    power = floor(log10(abs(value)))
    if -4 <= power < 9:
        text = rounded(value, max(0, digits - 1 - power))
        return text.rstrip("0").rstrip(".") if "." in text else text
    return f"{significant(value / 10.0**power, digits)}·10^{rounded(power, 0)}"
