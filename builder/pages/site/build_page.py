"""The pages of one build: the sheet, and the page for the bench with every step, gate and setting."""

from collections.abc import Callable

from builder.model.build import Build
from builder.model.kinds import GroundGear, Tool
from builder.pages.blocks import Page, Section, Span
from builder.pages.page_of_build import page_of_build
from builder.pages.sections.at_a_glance import at_a_glance
from builder.pages.sections.before_you_start import before_you_start, lay_out
from builder.pages.sections.budget import budget_section
from builder.pages.sections.changes import changes
from builder.pages.sections.first_power_up import first_power_up
from builder.pages.sections.flight import flight_section
from builder.pages.sections.how_made import how_made
from builder.pages.sections.not_judged import not_judged
from builder.pages.sections.order_of_work import order_of_work
from builder.pages.sections.parts import parts
from builder.pages.sections.power import power_section
from builder.pages.sections.questions import questions
from builder.pages.sections.setup import setup
from builder.pages.sections.soldering_order import WORK_FILE, soldering_order, work_address
from builder.pages.sections.upkeep import upkeep
from builder.pages.sections.weight import weight
from builder.pages.sections.wiring import wiring
from builder.pages.sheet_input import SheetInput

SECTIONS: tuple[Callable[[SheetInput], Section], ...] = (
    at_a_glance,
    before_you_start,
    parts,
    weight,
    budget_section,
    wiring,
    power_section,
    soldering_order,
    flight_section,
    questions,
    changes,
    not_judged,
    how_made,
)
WORK: tuple[Callable[[SheetInput], Section], ...] = (
    lay_out,
    order_of_work,
    first_power_up,
    setup,
    upkeep,
)


def _supplies(build: Build) -> tuple[str, ...]:
    """What is used up or built in, each once."""
    names = [f.part.name for f in build.parts.values() if not isinstance(f.part, Tool | GroundGear)]
    return tuple(dict.fromkeys([*names, *(p.part.name for p in build.packs.values())]))


def _tools(build: Build) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f.part.name for f in build.of_kind(Tool)))


def _paper(build: Build) -> Span:
    return Span("Bench sheet (PDF)", f"{build.name}/bench-sheet.pdf")


def build_page(sheet: SheetInput) -> Page:
    """The sheet. A section without content is left out."""
    build = sheet.build
    sections = tuple(s for s in (make(sheet) for make in SECTIONS) if s.blocks)
    links = (
        Span("Order of work, first power-up, setup, upkeep", work_address(build.name)),
        _paper(build),
        Span("How each number was made", f"{build.name}/numbers/index.html"),
        Span("Parts as CSV", f"{build.name}/parts.csv"),
        Span("Data as JSON", f"{build.name}/sheet.json"),
    )
    return page_of_build(
        sheet, "sheet", "index.html", build.title, build.source.summary, sections, links=links
    )


def work_page(sheet: SheetInput) -> Page:
    """The page that lies open at the bench: what to get ready, order of work, first power-up, setup,
    upkeep.
    """
    build = sheet.build
    return page_of_build(
        sheet,
        "sheet",
        WORK_FILE,
        f"{build.title}: order of work",
        "Every step with its reason, the first power-up in gates, setup and upkeep. Ticks stay on"
        " this device.",
        tuple(s for s in (make(sheet) for make in WORK) if s.blocks),
        links=(_paper(build),),
        data={"tools": _tools(build), "supplies": _supplies(build)},
    )
