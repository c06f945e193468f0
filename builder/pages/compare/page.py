"""Two builds side by side: a verdict first, then what differs, then everything."""

from builder.compute.compare.difference import Difference, difference_of
from builder.compute.flight.flight import BAND
from builder.pages.blocks import Block, Illustration, Page, Section, Span
from builder.pages.compare.bands import bands
from builder.pages.compare.batteries import unsaid_blocks, use_notes, use_tables
from builder.pages.compare.findings import finding_blocks, finding_words, limit_sentences
from builder.pages.compare.headline import headline_table
from builder.pages.compare.lists import order_blocks, setup_blocks, wiring_blocks
from builder.pages.compare.rows import figure_table, money_table, part_blocks
from builder.pages.compare.turning import turning_blocks
from builder.pages.distinct import distinct
from builder.pages.plots.waterfall import waterfall
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.verdict_line import verdict_line
from builder.rounding import rounded
from builder.rules.could_stay import Stay


def _weight(found: Difference) -> tuple[Block, ...]:
    blocks: list[Block] = [
        figure_table("Weight", (found.dry, *found.all_up), found.first, found.second)
    ]
    drawing = waterfall(found)
    if drawing is not None:
        blocks.append(Illustration(drawing, "Grams of the dry weight, place by place.", wide=True))
    return tuple(blocks)


def _flight(found: Difference, first: SheetInput, second: SheetInput) -> tuple[Block, ...]:
    drawing = bands(first, second)
    blocks: list[Block] = list(use_tables(found, first.build, second.build))
    if drawing is not None:
        words = f"Time in the air: {rounded(10 * BAND, 0)} of 10 flights lie between."
        blocks.append(Illustration(drawing, words, wide=True))
    notes = (use_notes(s.build, s.results) for s in (first, second))
    return (*blocks, *unsaid_blocks(tuple(words for side in notes for words in side)))


def compare_page(first: SheetInput, second: SheetInput, stays: tuple[Stay, ...]) -> Page:
    """The page of a pair; `stays` are parts and packs of the first that were tried on the second."""
    a, b = first.build.name, second.build.name
    found = difference_of(first.build, first.results, second.build, second.results)
    clauses = (*limit_sentences(first, second), *finding_words(first, second))
    verdict = verdict_line(found, first.build, second.build, clauses)
    sections = [
        Section("short", "In short", (headline_table(found),)),
        Section("parts", "Parts", part_blocks(found, a, b)),
        Section("weight", "Weight", _weight(found)),
        Section("money", "Money", (money_table(found, a, b),)),
    ]
    flight = _flight(found, first, second)
    if flight:
        sections.append(Section("flight", "Flight", flight))
    turning = turning_blocks(found, first.build, second.build, stays)
    wiring = wiring_blocks(found, first.build, second.build)
    sections += [
        Section("wiring", "Wiring", wiring),
        Section("order", "Order of work", order_blocks(found)),
        Section("setup", "Setup", setup_blocks(found)),
        Section("findings", "Limits and rules", finding_blocks(first, second)),
        Section("turning", f"What it takes to turn {a} into {b}", turning),
    ]
    titles = first.build.title, second.build.title
    links = Span(titles[0], f"{a}/index.html"), Span(titles[1], f"{b}/index.html")
    return Page(
        f"compare/{a}/{b}/index.html",
        "compare",
        f"{titles[0]} beside {titles[1]}",
        verdict,
        distinct(tuple(sections)),
        draft=first.draft or second.draft,
        breadcrumbs=(Span("Compare", "compare/index.html"),),
        links=links,
    )
