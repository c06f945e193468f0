"""What is ordered where: the purchases of a build by shop, with the postage of each, once."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.figures.sums import difference
from builder.compute.money.budget import UNNAMED_SHOP, Budget, BudgetLine
from builder.compute.money.price_figures import as_money, price_total
from builder.model.build import Build
from builder.model.kinds import PrintedPart
from builder.model.values.money_text import Money

Use = Literal["parts", "batteries", "bought once"]


@dataclass(frozen=True, eq=False)
class OrderLine:
    """A line to order, and what it is for. `left_over` counts what the bags hold beyond it."""

    line: BudgetLine
    use: Use
    left_over: int

    printed: bool = False

    @property
    def asked(self) -> bool:
        """Whether it is counted: a tool that is owned is there, a part on an aircraft is not free."""
        return not (self.line.owned and self.use == "bought once")


@dataclass(frozen=True, eq=False)
class ShopOrder:
    """One order. `shop` is '' where no shop is given; `total` holds what has to be ordered, with
    postage.
    """

    shop: str
    purchases: tuple[OrderLine, ...]
    postage: Figure | None
    total: Figure

    @property
    def is_bought(self) -> bool:
        """Whether a shop sells any of it: a part from one's own printer has a price and no shop."""
        return bool(self.shop) and not all(p.printed and not p.line.link for p in self.purchases)


@dataclass(frozen=True, eq=False)
class Orders:
    """All orders by the name of the shop, those without a shop last. `beyond` is the money for
    spares and for what whole bags leave over; `owning_none` all orders of somebody who owns no tool,
    None where the builder owns none either.
    """

    shops: tuple[ShopOrder, ...]
    beyond: MaybeFigure
    owning_none: Money | None = None


def _purchase(build: Build, line: BudgetLine, use: Use) -> OrderLine:
    held = line.purchases * line.sold_in
    fitted = build.parts.get(line.key)
    printed = fitted is not None and isinstance(fitted.part, PrintedPart)
    return OrderLine(line, use, held - line.count - line.spares, printed)


def _order(
    build: Build, shop: str, purchases: Iterable[OrderLine], postage: Figure | None
) -> ShopOrder:
    bought = tuple(purchases)
    costs: list[MaybeFigure] = [p.line.till_figure for p in bought if p.asked]
    sent = [postage] if postage is not None else []
    label = f"Order at {shop}" if shop else "Order without a shop"
    total = price_total(build, f"shop/{shop or 'none'}", label, [*costs, *sent])
    return ShopOrder(shop, bought, postage, total)


def _owning_none(budget: Budget) -> Money | None:
    """Whole coins; tools without a price are left out, as in the other sums."""
    to_pay = as_money(budget.figures["to-pay"], budget.currency)
    if to_pay is None or not any(x.owned for x in budget.once):
        return None
    owned = sum(x.till.minor for x in budget.once if x.owned and x.till is not None)
    return Money(to_pay.minor + owned, budget.currency)


def orders_of(build: Build, budget: Budget) -> Orders:
    """The orders of a build. Whole bags; a tool that is owned is listed and not counted."""
    lists: tuple[tuple[Use, tuple[BudgetLine, ...]], ...] = (
        ("parts", budget.lines),
        ("batteries", budget.packs),
        ("bought once", budget.once),
    )
    by_shop: dict[str, list[OrderLine]] = {}
    for use, lines in lists:
        for line in lines:
            by_shop.setdefault(line.shop, []).append(_purchase(build, line, use))
    postage = dict(budget.postage)
    names = sorted(by_shop, key=lambda name: (not name, name))
    shops = tuple(_order(build, n, by_shop[n], postage.get(n or UNNAMED_SHOP)) for n in names)
    key, label = f"{build.name}/budget/beyond", "Spares, and what whole bags leave over"
    figures = budget.figures
    paid, used = figures["parts-till"], figures["this-build"]
    beyond = difference(key, label, build.site.currency, paid, used)
    return Orders(shops, beyond, _owning_none(budget))
