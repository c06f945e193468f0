"""A figure within a sentence of a chapter: rounded as the pages round it, and as they link it."""

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.model.values.money_text import Money
from builder.pages.blocks import Number
from builder.pages.numbers import number, percent
from builder.pages.sheet_input import SheetInput
from builder.rounding import ShownUnit

_CODE = 3  # letters of a currency (ISO 4217)
# Figures that pages show in per cent, by the last step of their keys.
_SHARES = ("throttle", "left-at-timer", "share", "left", "chance")
_OF_A_MOTOR = "share-"  # of the weight that each motor carries, to a tenth
_MILLIWATTS: ShownUnit = ("mW", 1000.0, 1)  # of a transmitter


def _is_money(figure: Figure) -> bool:
    return len(figure.unit) == _CODE and figure.unit.isupper() and figure.unit.isalpha()


def chapter_figure(figure: MaybeFigure) -> Number:
    """The figure as pages show it."""
    last = figure.key.rpartition("/")[2]
    if not isinstance(figure, Figure):
        return number(figure)
    if last in _SHARES and figure.unit == "1":
        return percent(figure)
    if last.startswith(_OF_A_MOTOR) and figure.unit == "1":
        return percent(figure, 1)
    if "/radio/" in figure.key and figure.unit == "W":
        return number(figure, shown_as=_MILLIWATTS)
    if _is_money(figure):
        return number(figure, decimals=Money(0, figure.unit).digits)
    return number(figure)


def figures_by_key(sheet: SheetInput) -> dict[str, MaybeFigure]:
    """All figures of a build, and what is not known."""
    found: dict[str, MaybeFigure] = {u.key: u for u in sheet.unknown}
    return found | {f.key: f for f in sheet.figures}
