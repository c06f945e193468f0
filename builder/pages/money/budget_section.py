"""Money: this build line by line, what you pay, batteries, what is bought once; with
dates and rates.
"""

from collections.abc import Sequence
from urllib.parse import urlsplit

from builder.compute.figures.figure import MaybeFigure
from builder.compute.money.budget import BudgetLine
from builder.pages.blocks import (
    Block,
    Cell,
    Column,
    Inline,
    Paragraph,
    Row,
    Section,
    Span,
    Table,
)
from builder.pages.money.price_cells import amount, price_of_one
from builder.pages.page_map import address_of
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput


def _seen(line: BudgetLine) -> Cell:
    """The date on which the price was seen, marked where it is old; a link to where."""
    if line.seen is None:
        return Cell((Span("no date"),), tone="quiet") if line.each is not None else Cell()
    rel = "sponsored nofollow" if line.paid_link else ""
    shop = urlsplit(line.link).hostname if line.link else None
    words = f"{shop or 'no shop given'}, price of "
    pieces: list[Inline] = [Span(f"{words}{line.seen.isoformat()}", line.link, rel=rel)]
    if line.paid_link:
        pieces.append(Span(" (paid link)"))
    if line.stale:
        return Cell(tuple(pieces), note="older than the site allows", tone="bad")
    return Cell(tuple(pieces))


def _bought(line: BudgetLine) -> str:
    if line.owned:
        return "none"
    if line.sold_in > 1:
        return f"{line.purchases} of {line.sold_in}"
    return str(line.count + line.spares)


def _row(line: BudgetLine, currency: str) -> Row:
    owned = "owned" if line.owned else ""
    return table_row(
        Cell((Span(line.label),), note=owned),
        str(line.count),
        price_of_one(line),
        amount(line.used_figure, currency),
        _bought(line),
        amount(line.till_figure, currency),
        _seen(line),
    )


def _total(label: str, used: MaybeFigure | None, till: MaybeFigure | None, currency: str) -> Row:
    none, name = Cell(), Cell((Span(label),))
    of_used, of_till = _sum_cell(used, currency), _sum_cell(till, currency)
    return Row((name, none, none, of_used, none, of_till, none), kind="total")


def _sum_cell(found: MaybeFigure | None, currency: str) -> Cell:
    return Cell((amount(found, currency),)) if found is not None else Cell()


def _table(
    caption: str, anchor: str, lines: Sequence[BudgetLine], last: Sequence[Row], currency: str
) -> Table:
    columns = table_columns(
        "Part",
        Column("Pieces", align="right", narrow=True),
        right_column("Each"),
        Column("In this build", currency, "right"),
        right_column("To buy"),
        Column("You pay", currency, "right"),
        "Shop",
    )
    return Table(
        caption, columns, (*(_row(x, currency) for x in lines), *last), anchor=anchor, stack=True
    )


def _rates(sheet: SheetInput) -> str:
    """The rates that were used, with their dates."""
    budget = sheet.results.budget
    prices = (x.each for x in (*budget.lines, *budget.packs, *budget.once))
    used = {p.currency for p in prices if p is not None} - {budget.currency}
    said = []
    for r in sheet.build.site.rates:
        if {r.from_, r.to} & used:
            source = f" ({r.source})" if r.source else ""
            said.append(f"1 {r.from_} = {r.rate.value:g} {r.to} on {r.dated.isoformat()}{source}")
    return f"Rates: {'; '.join(said)}. " if said else ""


def _notes(sheet: SheetInput) -> Paragraph:
    budget = sheet.results.budget
    day = f"Ages count from {budget.as_of.isoformat()}. " if budget.as_of is not None else ""
    text = f"{_rates(sheet)}{day}Each line is rounded once, to the smallest coin."
    if budget.lacks:
        text += f" Without a price, and left out of the totals: {', '.join(budget.lacks)}."
    return Paragraph((Span(text),), quiet=True)


def _upkeep(sheet: SheetInput, currency: str) -> tuple[Inline, ...]:
    """What repairs and upkeep cost since, where there were any."""
    found = sheet.results.history
    if not found.events:
        return ()
    return (
        Span(" Repairs and upkeep since: "),
        amount(found.spent, currency, unit=True),
        Span(" ("),
        Span("history", address_of(sheet.build.name, "history")),
        Span(")."),
    )


def budget_section(sheet: SheetInput) -> Section:
    """The section; empty for a build without parts."""
    money_ = sheet.results.budget
    if not money_.lines:
        return Section("budget", "Budget", ())
    currency, figures = money_.currency, money_.figures
    lead = Paragraph(
        (
            Span("This build "),
            amount(figures["this-build"], currency, unit=True),
            Span("; you pay, with spares, whole bags, batteries and postage "),
            amount(figures["till"], currency, unit=True),
            Span("; with tools and ground gear still to buy "),
            amount(figures["to-pay"], currency, unit=True),
            Span("."),
            *_upkeep(sheet, currency),
        ),
        lead=True,
    )
    blocks: list[Block] = [lead]
    total = _total("Total", figures["this-build"], figures["parts-till"], currency)
    blocks.append(_table("Parts on the aircraft", "budget-build", money_.lines, [total], currency))
    if money_.packs:
        total = _total("Batteries", figures["packs"], figures["packs"], currency)
        blocks.append(_table("Batteries", "budget-packs", money_.packs, [total], currency))
    if money_.postage:
        rows = tuple(table_row(shop, amount(f, currency)) for shop, f in money_.postage)
        note = "The dearest postage of each shop, once."
        blocks.append(
            Table(
                "Postage", table_columns("Shop", Column("Once", currency, "right")), rows, note=note
            )
        )
    if money_.once:
        last = [
            _total("Bought once", None, figures["once"], currency),
            _total("of these still to buy", None, figures["once-to-buy"], currency),
        ]
        blocks.append(
            _table("Bought once: tools and ground gear", "budget-once", money_.once, last, currency)
        )
    blocks.append(_notes(sheet))
    return Section("budget", "Budget", tuple(blocks))
