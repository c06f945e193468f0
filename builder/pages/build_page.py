"""The sheet of one build: its sections in the order of the bench."""

from collections.abc import Callable

from builder.pages.blocks import Page, Section, Span
from builder.pages.sections.at_a_glance import at_a_glance
from builder.pages.sections.before_you_start import before_you_start
from builder.pages.sections.budget import budget
from builder.pages.sections.changes import changes
from builder.pages.sections.first_power_up import first_power_up
from builder.pages.sections.flight import flight
from builder.pages.sections.how_made import how_made
from builder.pages.sections.not_judged import not_judged
from builder.pages.sections.order_of_work import order_of_work
from builder.pages.sections.parts import parts
from builder.pages.sections.power import power
from builder.pages.sections.questions import questions
from builder.pages.sections.setup import setup
from builder.pages.sections.upkeep import upkeep
from builder.pages.sections.weight import weight
from builder.pages.sections.wiring import wiring
from builder.pages.sheet_input import SheetInput

SECTIONS: tuple[Callable[[SheetInput], Section], ...] = (
    at_a_glance,
    before_you_start,
    parts,
    weight,
    budget,
    wiring,
    power,
    order_of_work,
    first_power_up,
    setup,
    flight,
    upkeep,
    questions,
    changes,
    not_judged,
    how_made,
)


def build_page(sheet: SheetInput) -> Page:
    """The sheet. A section without content is left out."""
    build = sheet.build
    sections = tuple(s for s in (make(sheet) for make in SECTIONS) if s.blocks)
    return Page(
        address=f"{build.name}/index.html",
        kind="sheet",
        title=build.title,
        summary=build.source.summary,
        sections=sections,
        build=build.name,
        revised=build.source.revised.isoformat() if build.source.revised else "",
        status=build.source.status,
        draft=sheet.draft,
        breadcrumbs=(Span("All builds", "index.html"),),
        links=(
            Span("Bench sheet (PDF)", f"{build.name}/bench-sheet.pdf"),
            Span("How each number was made", f"{build.name}/numbers/index.html"),
            Span("Parts as CSV", f"{build.name}/parts.csv"),
            Span("Data as JSON", f"{build.name}/sheet.json"),
        ),
    )
