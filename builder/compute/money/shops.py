"""What is ordered where: the purchases of a build by shop, with the postage of each, once."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.figures.sums import difference
from builder.compute.money.budget import UNNAMED_SHOP, Budget, BudgetLine
from builder.compute.money.price_figures import price_total
from builder.model.build import Build

Use = Literal["parts", "batteries", "bought once"]


@dataclass(frozen=True, eq=False)
class OrderLine:
    """A line to order, and what it is for. `left_over` counts what the bags hold beyond it."""

    line: BudgetLine
    use: Use
    left_over: int

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


@dataclass(frozen=True, eq=False)
class Orders:
    """All orders by the name of the shop, those without a shop last. `beyond` is the money for
    spares and for what whole bags leave over.
    """

    shops: tuple[ShopOrder, ...]
    beyond: MaybeFigure


def _purchase(line: BudgetLine, use: Use) -> OrderLine:
    held = line.purchases * line.sold_in
    return OrderLine(line, use, held - line.count - line.spares)


def _order(
    build: Build, shop: str, purchases: Iterable[OrderLine], postage: Figure | None
) -> ShopOrder:
    bought = tuple(purchases)
    costs: list[MaybeFigure] = [p.line.till_figure for p in bought if p.asked]
    sent = [postage] if postage is not None else []
    label = f"Order at {shop}" if shop else "Order without a shop"
    total = price_total(build, f"shop/{shop or 'none'}", label, [*costs, *sent])
    return ShopOrder(shop, bought, postage, total)


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
            by_shop.setdefault(line.shop, []).append(_purchase(line, use))
    postage = dict(budget.postage)
    names = sorted(by_shop, key=lambda name: (not name, name))
    shops = tuple(_order(build, n, by_shop[n], postage.get(n or UNNAMED_SHOP)) for n in names)
    key, label = f"{build.name}/budget/beyond", "Spares, and what whole bags leave over"
    figures = budget.figures
    paid, used = figures["parts-till"], figures["this-build"]
    return Orders(shops, difference(key, label, build.site.currency, paid, used))
