"""Each topic on the short sheet: one picture or one table of at most ten rows, and the way on."""

from collections.abc import Mapping
from dataclasses import replace

from builder.pages.blocks import Block, Bullets, Paragraph, Section, Span
from builder.pages.brief.money_and_parts import costs_in_all, flights_by_battery, parts_by_group
from builder.pages.brief.picked import (
    MOST_ROWS,
    blocks_in,
    picture_in,
    shortened,
    table_in,
    way_on,
    without_column,
)
from builder.pages.brief.stretches import stretches
from builder.pages.page_map import address_of
from builder.pages.sections.not_judged import UNCHECKED
from builder.pages.sheet_input import SheetInput

_Whole = Mapping[str, Section]


def _brief(build: str, whole: Section, *shown: Block | None) -> Section | None:
    """A topic; None where its page has nothing of it."""
    if not whole.blocks:
        return None
    blocks = (*(b for b in shown if b is not None), way_on(build, whole.anchor, whole.heading))
    return Section(f"brief-{whole.anchor}", whole.heading, blocks, role="topic")


def _short_table(whole: Section, anchor: str = "") -> Block | None:
    table = table_in(whole, anchor)
    return shortened(table) if table is not None else None


def _limits(whole: Section) -> Block | None:
    """Which limits it keeps; how likely that is, its page says."""
    table = table_in(whole, "limits")
    return shortened(without_column(table, "Chance of being over")) if table else None


def _setup(sheet: SheetInput, whole: Section) -> Block | None:
    """Which motor turns which way, unless that is the sheet's own picture; else what is set first."""
    drawn = picture_in(whole) if sheet.build.source.hero is not None else None
    return drawn or _short_table(whole)


def _wiring(whole: Section) -> Block | None:
    """All wires; how the drawing is to be read stands on its page."""
    drawn = picture_in(whole)
    if drawn is None:
        return None
    first = drawn.caption.partition(". ")[0].removesuffix(".")
    return replace(drawn, caption=f"{first}.")


def _checks(whole: Section) -> tuple[Block | None, ...]:
    """How many there were, and what could not be judged."""
    said = next((b for b in whole.blocks if isinstance(b, Paragraph)), None)
    return said, _short_table(whole, UNCHECKED)


def _questions(build: str, whole: Section) -> Section | None:
    """What is asked, each leading to its answer."""
    asked = [s for s in whole.blocks if isinstance(s, Section)][:MOST_ROWS]
    items = tuple((Span(s.heading, address_of(build, s.anchor)),) for s in asked)
    return _brief(build, whole, Bullets(items))


def _changes(build: str, whole: Section) -> Section | None:
    """Whose variant it is, and what changed last."""
    said = [b for b in whole.blocks if isinstance(b, Paragraph)]
    return _brief(build, whole, *said, _short_table(whole))


def topic_briefs(sheet: SheetInput, whole: _Whole) -> tuple[Section, ...]:
    """All topics that a build has, in the order of a reader who wonders whether to copy it."""
    build = sheet.build.name
    found = (
        _brief(build, whole["weight"], _limits(whole["weight"])),
        _brief(build, whole["flight"], flights_by_battery(sheet)),
        _brief(build, whole["budget"], costs_in_all(sheet)),
        _brief(build, whole["parts"], parts_by_group(sheet)),
        _brief(build, whole["wiring"], _wiring(whole["wiring"])),
        _brief(build, whole["order"], stretches(build, whole["order"])),
        _brief(build, whole["setup"], _setup(sheet, whole["setup"])),
        _brief(build, whole["not-judged"], *_checks(whole["not-judged"])),
        _brief(build, whole["photographs"], next(blocks_in(whole["photographs"]), None)),
        _questions(build, whole["questions"]),
        _changes(build, whole["changes"]),
    )
    return tuple(s for s in found if s is not None)
