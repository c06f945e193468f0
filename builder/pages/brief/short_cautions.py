"""The cautions that stay on the short sheet: every DANGER and every WARNING that a page of the build
gives before its steps, by its title, with the way to the whole of it.
"""

from collections.abc import Mapping

from builder.diagnostics.finding import Signal
from builder.pages.blocks import Notice, Paragraph, Section, Span
from builder.pages.brief.picked import blocks_in
from builder.pages.page_map import address_of
from builder.pages.sheet_input import SheetInput

_GRAVE = (Signal.DANGER, Signal.WARNING)
_AT_THEIR_STEP = ("order", "first-power-up", "setup")  # theirs stand where they are done


def short_cautions(sheet: SheetInput, whole: Mapping[str, Section]) -> Section:
    """Each once, worst first; then how many of lesser level there are."""
    build = sheet.build.name
    found: dict[str, Notice] = {}
    lesser = 0
    for anchor, section in whole.items():
        notices = (b for b in blocks_in(section) if isinstance(b, Notice) and b.signal is not None)
        for notice in notices if anchor not in _AT_THEIR_STEP else ():
            if notice.signal not in _GRAVE:
                lesser += anchor == "before"
                continue
            at = notice.anchor or anchor
            link = Span("In full", address_of(build, at))
            short = Notice(notice.signal, notice.title, (link,), code=notice.code, said=notice.said)
            found.setdefault(notice.title, short)
    order = list(Signal)
    grave = sorted(found.values(), key=lambda n: order.index(n.signal or Signal.NOTICE))
    link = Span("Before you start", address_of(build, "before"))
    more = f", with {lesser} more cautions of lesser level." if lesser else "."
    last = Paragraph((link, Span(more)))
    return Section("cautions", "Cautions", (*grave, last), role="cautions")
