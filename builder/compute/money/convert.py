"""What it takes to turn one build into another: what is bought, what is left over, and what that
costs.
"""

from collections import Counter
from dataclasses import dataclass

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.figures.sums import total
from builder.compute.money.price_figures import as_money, price_figure
from builder.model.build import Build
from builder.model.kinds import Part
from builder.model.values.measures import Money


@dataclass(frozen=True, eq=False)
class Purchase:
    """Pieces of one part of the shelf that the first build does not have; `bought` counts whole
    bags.
    """

    shelf: str
    label: str
    needed: int
    bought: int
    price: MaybeFigure


@dataclass(frozen=True, eq=False)
class Conversion:
    """The way from one build to the other. `cost` leaves unknown prices out and then names them in
    `cost.lacks`.
    """

    keep: tuple[tuple[str, int], ...]
    buy: tuple[Purchase, ...]
    left_over: tuple[tuple[str, int], ...]
    cost: Figure
    money: Money


def _pieces(build: Build) -> Counter[str]:
    out: Counter[str] = Counter()
    for f in build.parts.values():
        out[f.shelf] += f.count
    for p in build.packs.values():
        out[p.shelf] += p.use.count * p.use.parallel
    return out


def _part(build: Build, shelf: str) -> Part:
    return build.shelf[shelf].part


def conversion(a: Build, b: Build) -> Conversion:
    """Parts are the same where the shelf's entry is the same. Spares and postage are not counted."""
    have, need = _pieces(a), _pieces(b)
    prices = {f.shelf: f.use.price or f.part.price for f in b.parts.values()}
    wheres = {
        f.shelf: (f.where if f.use.price else f.shelf_where).at("price") for f in b.parts.values()
    }
    buy = []
    for shelf, pieces in (need - have).items():
        entry = b.shelf[shelf]
        price = prices.get(shelf) or entry.part.price
        sold_in = max(1, price.sold_in) if price is not None else 1
        bought = -(-pieces // sold_in) * sold_in
        where = wheres.get(shelf, entry.where.at("price"))
        cost = price_figure(
            b, f"{a.name}/into/{b.name}/{shelf}", entry.part.name, price, bought, where
        )
        buy.append(Purchase(shelf, entry.part.name, pieces, bought, cost))
    label = f"Cost to turn {a.name} into {b.name}"
    cost = total(f"{a.name}/into/{b.name}/cost", label, b.site.currency, (p.price for p in buy))
    keep = tuple((_part(b, s).name, n) for s, n in (have & need).items())
    left_over = tuple((_part(a, s).name, n) for s, n in (have - need).items())
    amount = as_money(cost, b.site.currency) or Money(0, b.site.currency)
    return Conversion(keep, tuple(buy), left_over, cost, amount)
