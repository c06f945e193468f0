"""buy.csv: what to order, a line a part, shop by shop (RFC 4180, as parts.csv)."""

from builder.compute.money.shops import OrderLine
from builder.pages.sheet_input import SheetInput
from builder.render.data.csv_and_text import amount_cells, csv_file

_HEADINGS = (
    *("shop", "part", "needed", "spares", "bags", "pieces in a bag", "left over"),
    *("price", "currency", "price is for", "price date", "you pay", "paid in", "owned", "link"),
)


def _cells(shop: str, purchase: OrderLine, currency: str) -> tuple[str, ...]:
    line = purchase.line
    price, of_price = amount_cells(line.each)
    paid, _ = amount_cells(line.till)
    price_for = str(line.sold_in) if line.by_pack else "1"
    seen = line.seen.isoformat() if line.seen else ""
    many = str(line.count), str(line.spares), str(line.purchases), str(line.sold_in)
    owned = "yes" if line.owned else ""
    money = price, of_price, price_for, seen, paid, currency
    return (shop, line.label, *many, str(purchase.left_over), *money, owned, line.link)


def buy_csv(sheet: SheetInput) -> bytes:
    """The list of orders."""
    currency = sheet.build.site.currency
    shops = sheet.results.orders.shops
    return csv_file(_HEADINGS, (_cells(o.shop, p, currency) for o in shops for p in o.purchases))
