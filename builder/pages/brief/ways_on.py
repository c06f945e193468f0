"""Six ways on from the sheet."""

from builder.pages.blocks import Bullets, Inline, Section, Span
from builder.pages.page_map import (
    BENCH,
    BUY,
    CHOOSE,
    FLIGHT,
    PRINTED,
    SETUP,
    WIRING,
    WORK,
    page_address,
)
from builder.pages.sheet_input import SheetInput


def ways_on(sheet: SheetInput) -> Section:
    """Buy, wire, build, set up and fly, compare, print."""
    build = sheet.build.name
    base = sheet.build.chain[1] if len(sheet.build.chain) > 1 else ""
    compare = f"compare/{base}/{build}/index.html" if base else "compare/index.html"
    items: tuple[tuple[Inline, ...], ...] = (
        (
            _way("Buy", page_address(build, BUY)),
            Span(" shop by shop, or "),
            Span("swap parts", page_address(build, CHOOSE)),
            Span(" for less weight, money or more time"),
        ),
        (_way("Wire", page_address(build, WIRING)), Span(" drawing and every contact")),
        (
            _way("Build", page_address(build, WORK)),
            Span(" every step, or "),
            Span("one at a time", page_address(build, BENCH)),
        ),
        (
            _way("Set up", page_address(build, SETUP)),
            Span(" and "),
            _way("fly", page_address(build, FLIGHT)),
        ),
        (_way("Compare", compare), Span(f" with {base}" if base else " with other builds")),
        (
            _way("Print", page_address(build, PRINTED)),
            Span(" the bench sheet, or "),
            Span("its PDF", f"{build}/bench-sheet.pdf"),
        ),
    )
    return Section("ways", "Go on", (Bullets(items),), role="ways")


def _way(words: str, link: str) -> Span:
    return Span(words, link, strong=True)
