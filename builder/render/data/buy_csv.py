"""buy.csv: what to order, a line a part, shop by shop (RFC 4180, as parts.csv)."""

import csv
import io

from builder.compute.money.shops import OrderLine
from builder.pages.sheet_input import SheetInput
from builder.render.data.csv_and_text import amount_cells, harmless_cell

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
    """The list of orders, with CRLF line ends and a mark for spreadsheets."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(_HEADINGS)
    currency = sheet.build.site.currency
    for order in sheet.results.orders.shops:
        for purchase in order.purchases:
            cells = _cells(order.shop, purchase, currency)
            writer.writerow([harmless_cell(cell) for cell in cells])
    return ("\ufeff" + out.getvalue()).encode()
