"""The derivations of the figures at a glance, as an appendix of the bench sheet."""

from builder.compute.figures.figure import Figure
from builder.pages.blocks import Paragraph, Section, Span
from builder.pages.derivations.derivation_section import Values, derivation_section
from builder.pages.numbers import shown_in
from builder.pages.sheet_input import SheetInput
from builder.pages.site.figures_data import known_headline
from builder.rounding import decimals_for, rounded, significant

DEPTH = 2  # a headline figure and what it directly rests on; the numbers page opens the rest


class _OnPaper(Values):
    """Values to the digits that their spread leaves, and few of many inputs alike: the page on
    screen has the rest.
    """

    MOST = 6

    def made(self, figure: Figure) -> str:
        """`19.7 Wh ± 1.4 Wh`, or four digits where there is no spread."""
        unit, factor, _ = shown_in(figure)
        words = f" {unit}" if unit and unit != "1" else ""
        if not figure.spread:
            return f"{significant(figure.value * factor, 4)}{words}"
        wide = figure.spread * factor
        places = decimals_for(wide)
        return f"{rounded(figure.value * factor, places)}{words} ± {rounded(wide, places)}{words}"

    def other(self, figure: Figure, value: float) -> str:
        """Another value of the same figure to the same digits."""
        unit, factor, _ = shown_in(figure)
        words = f" {unit}" if unit and unit != "1" else ""
        return f"{rounded(value * factor, decimals_for(figure.spread * factor))}{words}"


def _opened(figure: Figure, depth: int, seen: dict[str, Figure]) -> None:
    if figure.formula is None or figure.key in seen:
        return
    seen[figure.key] = figure
    if depth > 1:
        for inner in figure.inputs:
            _opened(inner, depth - 1, seen)


def derivation_appendix(sheet: SheetInput) -> Section | None:
    """The appendix; None where the site wants none on paper."""
    if not sheet.build.site.derivations_on_paper:
        return None
    seen: dict[str, Figure] = {}
    for figure in known_headline(sheet).values():
        _opened(figure, DEPTH, seen)
    lead = Paragraph(
        (
            Span(
                "The figures at a glance and what they directly rest on. The page on screen opens all."
            ),
        )
    )
    values = _OnPaper()
    sections = tuple(derivation_section(f, values) for f in seen.values())
    return Section(
        "derivations", "How the figures at a glance were made", (lead, *sections), break_before=True
    )
