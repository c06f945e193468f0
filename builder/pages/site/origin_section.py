"""Where a build comes from: who gave the one that it was started from, and what they said of theirs."""

from builder.model.source.build_along import Origin
from builder.model.source.build_log import CopyReport
from builder.pages.blocks import Block, Bullets, Facts, Paragraph, Section, Span
from builder.pages.numbers import cell
from builder.pages.sheet_input import SheetInput

_NOT_COUNTED = (
    "What the giver says of their own aircraft. Nothing here counts it: weigh, test and try your"
    " own."
)


def _facts(origin: Origin) -> Facts:
    revised = origin.revised.isoformat() if origin.revised else ""
    said = {
        "Build": origin.title,
        "By": origin.author or "not said",
        "Licence": origin.licence or "not said",
        "Site": origin.site or "",
        "Address": origin.address or "",
        "Last changed": revised,
        "Their guide": origin.guide or "",
        "Invented": origin.invented or "",
        "Digest of its files": origin.digest or "",
    }
    return Facts(tuple((words, cell(text)) for words, text in said.items() if text))


def _blocks(origin: Origin) -> list[Block | Section]:
    blocks: list[Block | Section] = [_facts(origin)]
    if origin.history:
        lines = tuple((Span(line),) for line in origin.history)
        blocks += [Paragraph((Span(_NOT_COUNTED),)), Bullets(lines)]
    return blocks


def _copy(copy: CopyReport) -> list[Block | Section]:
    """What somebody found who built it."""
    whose = f"{copy.title}, by {copy.by}" if copy.title else copy.by
    head = Paragraph((Span("Built after this one: ", strong=True), Span(f"{whose}.")))
    lines = tuple((Span(line),) for line in copy.found)
    return [head, Bullets(lines)] if lines else [head]


def origin_section(sheet: SheetInput) -> Section:
    """The section; empty for a build that was started from no other and that nobody told us of."""
    source = sheet.build.source
    blocks = [b for origin in source.origin for b in _blocks(origin)]
    blocks += [b for copy in source.copies for b in _copy(copy)]
    own = source.copies and not source.origin
    title = "Who built it too" if own else "Where it comes from"
    return Section("origin", title, tuple(blocks))
