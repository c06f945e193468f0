"""The pages of one build: the short sheet, and a page a topic, as the map of pages says."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Literal

from builder.compute.figures.figure import Figure
from builder.model.build import Build
from builder.model.kinds import GroundGear, Tool
from builder.pages.blocks import Page, Section, Span
from builder.pages.brief.short_cautions import short_cautions
from builder.pages.brief.topic_briefs import topic_briefs
from builder.pages.brief.was_here import was_here
from builder.pages.brief.ways_on import ways_on
from builder.pages.derivations.numbers_page import numbers_page
from builder.pages.guide.given_section import given_files_section
from builder.pages.guide.guide_brief import guide_brief
from builder.pages.guide.recording_section import recording_section
from builder.pages.guide.ways_back import with_ways_back
from builder.pages.money.budget_section import budget_section
from builder.pages.money.buy_section import buy
from builder.pages.page_map import (
    BENCH,
    BUY,
    FLIGHT,
    NUMBERS,
    PARTS,
    PRINTED,
    SETUP,
    SHEET,
    TOPIC_PAGES,
    WIRING,
    WORK,
    BuildPage,
    page_address,
)
from builder.pages.page_of_build import page_of_build
from builder.pages.sections.at_a_glance import at_a_glance
from builder.pages.sections.before_you_start import before_you_start, cautions_on, lay_out
from builder.pages.sections.changes import changes
from builder.pages.sections.first_power_up import first_power_up
from builder.pages.sections.flight import flight_section
from builder.pages.sections.how_made import how_made
from builder.pages.sections.not_judged import not_judged
from builder.pages.sections.order_of_work import order_of_work
from builder.pages.sections.parts import parts
from builder.pages.sections.photographs import photographs
from builder.pages.sections.power import power_section
from builder.pages.sections.questions import questions
from builder.pages.sections.setup import setup
from builder.pages.sections.soldering_order import hardest_joints, soldering_order
from builder.pages.sections.upkeep import upkeep
from builder.pages.sections.weight import weight
from builder.pages.sections.wiring import wiring
from builder.pages.sheet_input import SheetInput
from builder.pages.site.origin_section import origin_section
from builder.pages.views.aircraft import aircraft_section
from builder.pages.views.stack_drawings import stack_drawings

WholeSections = Mapping[str, Section]
_MAKERS: Mapping[str, Callable[[SheetInput], Section]] = {
    "parts": parts,
    "weight": weight,
    "budget": budget_section,
    "buy": buy,
    "photographs": photographs,
    "recording": recording_section,
    "given-files": given_files_section,
    "questions": questions,
    "changes": changes,
    "origin": origin_section,
    "aircraft": aircraft_section,
    "stack": stack_drawings,
    "joint-heat": hardest_joints,
    "wiring": wiring,
    "power": power_section,
    "before": before_you_start,
    "lay-out": lay_out,
    "soldering-order": soldering_order,
    "order": order_of_work,
    "first-power-up": first_power_up,
    "setup": setup,
    "flight": flight_section,
    "upkeep": upkeep,
    "not-judged": not_judged,
    "how-made": how_made,
}
_CAUTIONS: Mapping[str, Callable[[SheetInput], Section]] = {
    page.name: partial(cautions_on, page=page.name) for page in (WIRING, SETUP, FLIGHT)
}


def whole_sections(sheet: SheetInput) -> WholeSections:
    """Every section of a build by its anchor, each made once: the short sheet picks from them."""
    made = {anchor: make(sheet) for anchor, make in _MAKERS.items()}
    return with_ways_back(sheet, made)


def _supplies(build: Build) -> tuple[str, ...]:
    """What is used up or built in, each once."""
    names = [f.part.name for f in build.parts.values() if not isinstance(f.part, Tool | GroundGear)]
    return tuple(dict.fromkeys([*names, *(p.part.name for p in build.packs.values())]))


def _tools(build: Build) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f.part.name for f in build.of_kind(Tool)))


def _links(build: str, page: BuildPage) -> tuple[Span, ...]:
    """Files that go with a page."""
    paper = Span("Bench sheet (PDF)", f"{build}/bench-sheet.pdf")
    page_to_print = Span("Bench sheet, to print", page_address(build, PRINTED))
    given = {
        PARTS.name: (
            Span("Parts as CSV", f"{build}/parts.csv"),
            Span("Source to start from (ZIP)", f"{build}/source.zip"),
        ),
        BUY.name: (Span("List as CSV", f"{build}/buy.csv"),),
        WORK.name: (Span("One step at a time", page_address(build, BENCH)), page_to_print, paper),
    }
    return given.get(page.name, ())


def build_page(sheet: SheetInput, whole: WholeSections | None = None) -> Page:
    """The sheet: short, with a way to each topic. A topic without content is left out."""
    build = sheet.build
    found = whole_sections(sheet) if whole is None else whole
    sections = (
        at_a_glance(sheet),
        short_cautions(sheet, found),
        ways_on(sheet),
        *guide_brief(sheet),
        *topic_briefs(sheet, found),
        was_here(build.name, SHEET),
    )
    return page_of_build(sheet, "sheet", SHEET, build.title, build.source.summary, sections)


def topic_page(sheet: SheetInput, page: BuildPage, whole: WholeSections | None = None) -> Page:
    """One page of the map with the sections that it holds; one without content is left out."""
    build = sheet.build
    found = whole_sections(sheet) if whole is None else whole
    sections = [found[p.anchor] for p in page.holds]
    if page.name in _CAUTIONS:
        sections.insert(0, _CAUTIONS[page.name](sheet))
    if page.formerly:
        sections.append(was_here(build.name, page))
    kind: Literal["topic", "buy"] = "buy" if page is BUY else "topic"
    at_bench = page is WORK
    return page_of_build(
        sheet,
        kind,
        page,
        f"{build.title}: {page.title.lower()}",
        page.reader,
        tuple(s for s in sections if s.blocks),
        links=_links(build.name, page),
        data={"tools": _tools(build), "supplies": _supplies(build)} if at_bench else {},
    )


def work_page(sheet: SheetInput) -> Page:
    """The page that lies open at the bench."""
    return topic_page(sheet, WORK)


def sheet_pages(sheet: SheetInput, whole: WholeSections | None = None) -> tuple[Page, ...]:
    """The sheet and all its topic pages but that of numbers, each section made once."""
    whole = whole_sections(sheet) if whole is None else whole
    topics = (p for p in TOPIC_PAGES if p is not NUMBERS)
    return build_page(sheet, whole), *(topic_page(sheet, p, whole) for p in topics)


def all_pages(sheet: SheetInput, figures: Sequence[Figure]) -> tuple[Page, ...]:
    """All pages of the map, that of numbers last."""
    whole = whole_sections(sheet)
    checks = tuple(whole[p.anchor] for p in NUMBERS.holds if p.anchor in whole)
    return *sheet_pages(sheet, whole), numbers_page(sheet, figures, checks)
