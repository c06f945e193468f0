"""Numbers become text: the only place that rounds. Half away from zero, as the page's script does too."""

from decimal import ROUND_HALF_UP, Decimal
from math import floor, log10

from builder.compute.figures.at_least import ABOUT, AT_LEAST, AT_MOST, reading_of
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, anchor_of
from builder.model.values.measures import Money
from builder.pages.blocks import Cell, Number, Span

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
    "Hz": ("MHz", 1e-6, 0),
    "dB": ("dB", 1.0, 1),
    "F": ("µF", 1e6, 0),
    "Pa": ("hPa", 0.01, 1),
    "N/m²": ("N/m²", 1.0, 1),
}


_SMALL_FLOAT, _LARGE_FLOAT, _FEW = 1e-4, 1e6, 9  # between the two a float reads without a power, and has the digits


def rounded(value: float, decimals: int) -> str:
    """A number with fixed decimals, half away from zero, with a true minus sign; never '-0'."""
    digits = repr(value)
    if digits[-1] != "5" and _SMALL_FLOAT <= abs(value) < _LARGE_FLOAT and 0 <= decimals <= _FEW:
        text = f"{value:.{decimals}f}"  # its last digit is not half way to another: the binary value rounds alike
    else:
        text = f"{Decimal(digits).quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP):f}"
    if text[0] != "-":
        return text
    return (MINUS if text.strip("-0.") else "") + text[1:]


def decimals_for(spread: float, least: int = 0, most: int = 4) -> int:
    """Decimals that show a spread with one to two significant digits."""
    if spread <= 0:
        return most
    digits = -floor(log10(spread))
    if spread * 10**digits < 2:
        digits += 1
    return max(least, min(most, digits))


_SMALL = {"J": ("J", 1.0, 1), "s": ("s", 1.0, 1)}  # below a watt-hour and a minute


def shown_in(figure: Figure) -> tuple[str, float, int]:
    """The unit in which pages show a figure, the factor to it, and its usual decimals."""
    unit, factor, decimals = SHOWN.get(figure.unit, (figure.unit, 1.0, 2))
    if figure.unit in _SMALL and abs(figure.value) * factor < 1:
        return _SMALL[figure.unit]
    if figure.unit == "m" and abs(figure.value) >= 10:
        return "m", 1.0, 1
    return unit, factor, decimals


def in_unit(figure: Figure) -> tuple[float, float, str, int]:
    """Value and spread in the unit that pages show, the unit, and its usual decimals."""
    unit, factor, decimals = shown_in(figure)
    return figure.value * factor, figure.spread * factor, unit, decimals


def _in_usual_unit(figure: Figure) -> tuple[float, float, str, int]:
    unit, factor, decimals = SHOWN.get(figure.unit, (figure.unit, 1.0, 2))
    return figure.value * factor, figure.spread * factor, unit, decimals


def number(
    figure: MaybeFigure, *, decimals: int | None = None, spread: bool = False, unit: bool = True, steady: bool = False
) -> Number:
    """A figure as text that links to its derivation; an Unknown as a dash that does too.

    `steady` keeps the usual unit however small the value, so that two sides and their difference share it.
    """
    if isinstance(figure, Unknown):
        return Number("unknown", anchor=anchor_of(figure.key))
    value, wide, shown_unit, usual = _in_usual_unit(figure) if steady else in_unit(figure)
    places = usual if decimals is None else decimals
    shown_spread = f"± {rounded(wide, max(places, decimals_for(wide) if wide else 0))}" if spread and wide else ""
    shown_value = rounded(value, places)
    return Number(
        shown_value, shown_unit if unit else "", shown_spread, anchor_of(figure.key), figure.basis, reading_of(figure)
    )


def significant(value: float, digits: int = 6) -> str:
    """A number to so many significant digits, as derivations show it; powers of ten where it is very small or large."""
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


def percent(figure: MaybeFigure, decimals: int = 0) -> Number:
    """A share as per cent; a chance never rounds to certainty, and one that leaves something out says which way."""
    if isinstance(figure, Unknown):
        return number(figure)
    value, least, way = 100 * figure.value, 10.0**-decimals, reading_of(figure)
    if value < least:
        # What is only a lower bound is not known to be small.
        small = Number(rounded(least, decimals), "%", anchor=figure.anchor, prefix="under")
        return Number("unknown", anchor=figure.anchor) if way in (AT_LEAST, ABOUT) else small
    if value > 100 - least:
        large = Number(rounded(100 - least, decimals), "%", anchor=figure.anchor, prefix="over")
        return Number("unknown", anchor=figure.anchor) if way in (AT_MOST, ABOUT) else large
    return Number(rounded(value, decimals), "%", anchor=figure.anchor, prefix=way)


def money(amount: Money, *, at_least: bool = False) -> str:
    """An amount with its currency code: `12.50 EUR`; `at_least` for a sum that leaves out what has no price."""
    return f"{'at least ' if at_least else ''}{rounded(float(Decimal(amount.minor).scaleb(-amount.digits)), amount.digits)} {amount.currency}"


def cell(*pieces: Number | Span | str, note: str = "") -> Cell:
    """A table's cell of numbers and words."""
    return Cell(tuple(Span(p) if isinstance(p, str) else p for p in pieces), note)
