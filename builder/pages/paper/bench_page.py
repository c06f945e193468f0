"""The bench sheet as a page: the same blocks as its PDF, for any browser to print, and where none can
be made.
"""

from builder.model.kinds import Propeller
from builder.pages.blocks import Page, Span
from builder.pages.page_map import PRINTED
from builder.pages.page_of_build import page_of_build
from builder.pages.paper.bench_sheet import PRINTED_FILES, bench_sections
from builder.pages.sheet_input import SheetInput

_WORDS = ("Bench sheet (PDF)", "Gates (PDF)", "Field card (PDF)")


def files_printed(sheet: SheetInput) -> tuple[str, ...]:
    """The files that are printed of a build: one without gates has none of them, and so on."""
    has = (True, bool(sheet.results.gates), bool(sheet.build.of_kind(Propeller)))
    return tuple(file for file, there in zip(PRINTED_FILES, has, strict=True) if there)


def bench_page(sheet: SheetInput) -> Page:
    """The page, with the ways to its files."""
    name, words = sheet.build.name, dict(zip(PRINTED_FILES, _WORDS, strict=True))
    links = tuple(Span(words[file], f"{name}/{file}") for file in files_printed(sheet))
    title = f"{sheet.build.title}: {PRINTED.title.lower()}"
    return page_of_build(
        sheet, "paper", PRINTED, title, PRINTED.reader, bench_sections(sheet), links=links
    )
