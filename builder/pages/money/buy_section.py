"""What to order, shop by shop: whole bags, prices with their dates, what may stand in when something
is sold out, boxes for what is ordered and what has come.
"""

import re
from collections.abc import Mapping

from builder.compute.figures.figure import MaybeFigure
from builder.compute.money.price_figures import as_money
from builder.compute.money.shops import OrderLine, Orders, ShopOrder
from builder.model.values.money_text import Money
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
    Tick,
)
from builder.pages.money.price_cells import amount, price_of_one
from builder.pages.money.stand_ins import stand_ins
from builder.pages.numbers import cell, money
from builder.pages.page_map import CHOOSE, address_of, page_address
from builder.pages.rows import right_column, table_columns, table_row
from builder.pages.sheet_input import SheetInput

_NO_SHOP = "No shop given"
_USES = {"parts": "", "batteries": "battery", "bought once": "bought once"}


def _order_of(purchase: OrderLine) -> Cell:
    """How many to order; with what is left over of a bag."""
    line = purchase.line
    if line.sold_in == 1:
        return Cell((Span(str(line.purchases)),))
    bags = "bag" if line.purchases == 1 else "bags"
    left = f"{purchase.left_over} left over" if purchase.left_over else ""
    return Cell((Span(f"{line.purchases} {bags} of {line.sold_in}"),), note=left)


def _needed(purchase: OrderLine) -> Cell:
    line = purchase.line
    spares = f"and {line.spares} to spare" if line.spares else ""
    return Cell((Span(str(line.count)),), note=spares)


def _offer(purchase: OrderLine, shop: str) -> Cell:
    """The shop's name as the link, with the day on which the price was seen."""
    line = purchase.line
    name = shop or _NO_SHOP
    rel = "sponsored nofollow" if line.paid_link else ""
    pieces: list[Inline] = [Span(name, line.link, rel=rel)]
    if line.paid_link:
        pieces.append(Span(" (paid link)"))
    if line.each is None:
        return Cell(tuple(pieces), note="no price", tone="bad")
    seen = f"price of {line.seen.isoformat()}" if line.seen is not None else "price without a date"
    if line.stale:
        return Cell(tuple(pieces), note=f"{seen}, older than the site allows", tone="bad")
    return Cell(tuple(pieces), note=seen)


def _paid(figure: MaybeFigure, currency: str) -> Mapping[str, str]:
    """The amount in whole coins, for the script that adds up what is not yet ordered."""
    known = as_money(figure, currency)
    return {"paid": str(known.minor)} if known is not None else {}


def _row(purchase: OrderLine, shop: str, sheet: SheetInput) -> Row:
    line, currency = purchase.line, sheet.build.site.currency
    use = _USES[purchase.use]
    if line.owned:
        whose = "owned by the builder of this sheet"
        use = whose if purchase.asked else f"{whose}, not counted"
    shelf, key = _shelf_of(sheet, line.key), f"buy-part-{line.key}"
    label = Span(line.label, f"parts/{shelf}/index.html")
    name = Cell((label, *_over(sheet, line.key)), note=use)
    ordered = Tick(f"ordered-{line.key}", f"{line.label} ordered"), Span(" ordered ")
    come = Tick(f"arrived-{line.key}", f"{line.label} has come"), Span(" here")
    boxes = Cell((*ordered, *come))
    paid = amount(line.till_figure, currency)
    bought = name, _needed(purchase), _order_of(purchase), price_of_one(line), paid
    row = table_row(*bought, _offer(purchase, shop), stand_ins(sheet, purchase), boxes)
    paid_data = _paid(line.till_figure, currency) if purchase.asked else {}
    bag = {"shelf": shelf, "over": str(purchase.left_over)}
    return Row(row.cells, anchor=key, data={**paid_data, **bag})


def _over(sheet: SheetInput, key: str) -> tuple[Span, ...]:
    """What full throttle on a battery takes more of than it is rated for, as its flight page warns."""
    pack = key.removeprefix("pack-")
    limits = sheet.results.flight.limits if pack != key else ()
    over = list(dict.fromkeys(x.what for x in limits if x.pack == pack and x.over))
    if not over:
        return ()
    words = f"Warning: with it, full throttle takes more than this is rated for: {', '.join(over)}."
    return Span(" "), Span(words, address_of(sheet.build.name, "full-throttle-over"), strong=True)


def _shelf_of(sheet: SheetInput, key: str) -> str:
    """The name on the shelf of a line to order, by which another build has the same part."""
    fitted = sheet.build.parts.get(key)
    return fitted.shelf if fitted else sheet.build.packs[key.removeprefix("pack-")].shelf


def _anchor(shop: str) -> str:
    """An id has neither blanks nor brackets."""
    return f"buy-at-{'-'.join(re.findall(r'[a-z0-9]+', shop.casefold())) or 'shop'}"


def _shop_table(order: ShopOrder, sheet: SheetInput) -> Table:
    currency, none = sheet.build.site.currency, Cell()
    columns = table_columns(
        *("Part", Column("Needed", align="right", narrow=True), "Order", right_column("Each")),
        *(Column("You pay", currency, "right"), "Shop", "Sold out?", "Done"),
    )
    rows = [_row(p, order.shop, sheet) for p in order.purchases]
    if order.postage is not None:
        sent = table_row("Postage", none, "once", none, amount(order.postage, currency))
        data = {"postage": _paid(order.postage, currency)["paid"]}
        rows.append(Row((*sent.cells, none, none, none), data=data))
    total = amount(order.total, currency)
    last = table_row("This order", none, none, none, total, none, none, none, kind="total")
    name = order.shop or _NO_SHOP
    return Table(name, columns, (*rows, last), anchor=_anchor(order.shop), stack=True)


def _tools(sheet: SheetInput, orders: Orders) -> Row:
    """What is bought once; what the builder owns already is not in the sum, and is said."""
    found, note = sheet.results.budget, ""
    if orders.owning_none is not None:
        every = money(found.once_total, at_least=bool(found.figures["once"].lacks))
        note = f"without what the builder of this sheet owns; all of them cost {every}"
    words = cell("Tools and ground gear to buy", note=note)
    return table_row(words, amount(found.figures["once-to-buy"], sheet.build.site.currency))


def _sums(sheet: SheetInput, orders: Orders) -> Table:
    """What it comes to, by what it is for; the last line follows the boxes on the reader's device."""
    found, currency = sheet.results.budget, sheet.build.site.currency
    figures = found.figures
    digits = Money(0, currency).digits
    rows = [
        table_row("Parts in this build", amount(figures["this-build"], currency)),
        table_row("Spares, and what whole bags leave over", amount(orders.beyond, currency)),
        table_row("Batteries", amount(figures["packs"], currency)),
        _tools(sheet, orders),
    ]
    rows += [table_row(f"Postage, {shop}", amount(f, currency)) for shop, f in found.postage]
    everything = amount(figures["to-pay"], currency)
    rows.append(table_row("All orders", everything, kind="total"))
    if orders.owning_none is not None:
        words = cell("All orders, if you own no tool", note="without postage of the tools")
        lacks = figures["to-pay"].lacks or figures["once"].lacks
        sum_of_all = Cell((Span(money(orders.owning_none, at_least=bool(lacks))),))
        rows.append(table_row(words, sum_of_all))
    left = table_row("Not yet ordered, by the boxes ticked here", everything)
    rows.append(Row(left.cells, anchor="buy-left", data={"digits": str(digits)}))
    columns = table_columns("For", Column("You pay", currency, "right"))
    return Table("What it comes to", columns, tuple(rows), anchor="buy-sums")


def _lead(sheet: SheetInput, orders: Orders) -> Paragraph:
    shops = sum(o.is_bought for o in orders.shops)
    many = "1 shop" if shops == 1 else f"{shops} shops"
    figure, currency = sheet.results.budget.figures["to-pay"], sheet.build.site.currency
    total = amount(figure, currency, unit=True)
    pieces = Span(f"Order at {many}: "), total, Span(" with postage, spares and whole bags.")
    return Paragraph(pieces, lead=True)


def _ways(build: str, orders: Orders) -> Paragraph:
    """The way to the list of each shop, for whoever looks for what to order and not for the sum."""
    pieces = [Span("What to order: ")]
    for at, order in enumerate(orders.shops):
        pieces += [Span(", ")] if at else []
        pieces.append(Span(order.shop or _NO_SHOP, f"#{_anchor(order.shop)}"))
    other = Span("swaps of the whole shelf", page_address(build, CHOOSE))
    return Paragraph((*pieces, Span(". Sold out, and nothing is named: "), other, Span(".")))


def buy(sheet: SheetInput) -> Section:
    """The section; empty for a build without parts."""
    found = sheet.results.budget
    if not (found.lines or found.packs or found.once):
        return Section("buy", "Buy", ())
    orders = sheet.results.orders
    tables = [_shop_table(order, sheet) for order in orders.shops]
    day = f"Ages of prices count from {found.as_of.isoformat()}. " if found.as_of else ""
    note = f"{day}Prices change: the shop's own page counts."
    if found.lacks:
        note += f" Without a price, and left out of the sums: {', '.join(found.lacks)}."
    said = Paragraph((Span(note),), quiet=True)
    blocks: tuple[Block, ...] = (
        _lead(sheet, orders),
        _ways(sheet.build.name, orders),
        _sums(sheet, orders),
        *tables,
        said,
    )
    return Section("buy", "Buy", blocks, role="buy")
