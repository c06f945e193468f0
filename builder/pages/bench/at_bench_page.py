"""The page at the bench. Without a script it is the whole list; with one, a screen a step."""

from collections.abc import Mapping

from builder.pages.bench.bands import bands_of
from builder.pages.bench.field_screen import alarms_of, field_section
from builder.pages.bench.screens import Bench, screens_of
from builder.pages.bench.script_words import WORDS
from builder.pages.bench.trouble import Trouble, trouble_data, trouble_of, trouble_section
from builder.pages.blocks import Page, Paragraph, Section, Span
from builder.pages.page_map import BENCH, WORK, page_address
from builder.pages.page_of_build import page_of_build
from builder.pages.sheet_input import SheetInput

_ABOUT = (
    "Each step has a box for each joint, and fields for what you read. Readings are checked as you"
    " type them, in metric units. What you tick and type stays on this device; nothing is sent anywhere."
)


def _intro(sheet: SheetInput) -> Section:
    """What the page does, and where all of the work stands on one page."""
    build = sheet.build.name
    whole = (
        Span("All of it on one page: "),
        Span("order of work", page_address(build, WORK)),
        Span("."),
    )
    return Section("do", "Step by step", (Paragraph((Span(_ABOUT),)), Paragraph(whole)))


def _kept() -> Section:
    """Where the script puts what is kept; without one, what stays and what does not."""
    words = (
        "Without a script nothing is kept here: use the bench sheet on paper. With one, ticks and"
        " readings stay by step and joint, also when the sheet is revised."
    )
    return Section("kept", "Kept on this device", (Paragraph((Span(words),), quiet=True),))


def bench_data(sheet: SheetInput, bench: Bench, trouble: Trouble) -> Mapping[str, object]:
    """What the page's script compares with, as plain values."""
    return {
        "build": sheet.build.name,
        "digest": sheet.build.digest[:12],
        "screens": [s.as_plain() for s in bench.screens],
        "fields": {b.key: b.as_plain() for b in bands_of(sheet)},
        "trouble": trouble_data(sheet, trouble),
        "alarms": alarms_of(sheet),
        "words": dict(WORDS),
    }


def at_bench_page(sheet: SheetInput) -> Page:
    """The page: the work as screens, what to do where something does not work, the field."""
    bench, trouble = screens_of(sheet), trouble_of(sheet)
    sections = (
        _intro(sheet),
        *bench.sections,
        trouble_section(sheet, trouble),
        field_section(sheet),
        _kept(),
    )
    title = f"{sheet.build.title}: {BENCH.title.lower()}"
    shown = tuple(s for s in sections if s.blocks)
    data = {"bench": bench_data(sheet, bench, trouble)}
    return page_of_build(sheet, "bench", BENCH, title, BENCH.reader, shown, data=data)
