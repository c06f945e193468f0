"""The derivations of the figures at a glance, as an appendix of the bench sheet."""

from builder.compute.figure import Figure
from builder.pages.blocks import Paragraph, Section, Span
from builder.pages.figures_data import known_headline
from builder.pages.numbers_page import Values, derivation_section
from builder.pages.sheet_input import SheetInput

DEPTH = 2  # a headline figure and what it directly rests on; the numbers page opens the rest


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
    lead = Paragraph((Span("The figures at a glance and what they directly rest on. The page on screen opens all."),))
    values = Values()
    sections = tuple(derivation_section(f, values) for f in seen.values())
    return Section("derivations", "How the figures at a glance were made", (lead, *sections), break_before=True)
