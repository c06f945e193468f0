"""Two builds side by side: a verdict first, then what differs, then everything."""

from builder.compute.difference import Difference, compare
from builder.pages.blocks import Block, Illustration, Page, Paragraph, Section, Span
from builder.pages.compare_findings import finding_blocks, finding_words, limit_words
from builder.pages.compare_rows import figure_table, money_table, part_blocks
from builder.pages.compare_turning import folded, turning_blocks
from builder.pages.sheet_input import SheetInput
from builder.pages.verdict_line import verdict_line
from builder.pages.waterfall import waterfall


def _weight(found: Difference) -> tuple[Block, ...]:
    table = figure_table("Weight", (found.dry, *found.all_up), found.first, found.second)
    drawing = waterfall(found)
    return (table,) if drawing is None else (table, Illustration(drawing, "Grams of the dry weight, place by place."))


def _lists(found: Difference, gone: tuple[str, ...], new: tuple[str, ...], same: str) -> tuple[Block, ...]:
    both = [*folded(f"Only in {found.first}", gone), *folded(f"Only in {found.second}", new)]
    return tuple(both) or (Paragraph((Span(same),)),)


def compare_page(first: SheetInput, second: SheetInput) -> Page:
    """The page of a pair."""
    a, b = first.build.name, second.build.name
    found = compare(first.build, first.results, second.build, second.results)
    clauses = (*limit_words(first, second), *finding_words(first, second))
    verdict = verdict_line(found, first.build, second.build, clauses)
    sections = [
        Section("parts", "Parts", part_blocks(found, a, b)),
        Section("weight", "Weight", _weight(found)),
        Section("money", "Money", (money_table(found, a, b),)),
    ]
    if found.flight:
        sections.append(Section("flight", "Flight", (figure_table("Flight", found.flight, a, b),)))
    wires = _lists(found, found.wires_gone, found.wires_new, "The wiring is the same.")
    steps = _lists(found, found.steps_gone, found.steps_new, "The steps are the same.")
    setup = _lists(found, found.setup_gone, found.setup_new, "The setup is the same.")
    sections += [
        Section("wiring", "Wiring", wires),
        Section("order", "Order of work", steps),
        Section("setup", "Setup", setup),
        Section("findings", "Limits and rules", finding_blocks(first, second)),
        Section("turning", f"What it takes to turn {a} into {b}", turning_blocks(found, first, second)),
    ]
    return Page(
        f"compare/{a}/{b}/index.html",
        "compare",
        f"{first.build.title} beside {second.build.title}",
        verdict,
        tuple(sections),
        draft=first.draft or second.draft,
        breadcrumbs=(Span("Side by side", "compare/index.html"),),
        links=(Span(first.build.title, f"{a}/index.html"), Span(second.build.title, f"{b}/index.html")),
    )
