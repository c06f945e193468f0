"""What it takes to turn one build into another: what is bought, what is left over, and what that
costs.
"""

from collections import Counter
from dataclasses import dataclass

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.figures.sums import total
from builder.compute.money.price_figures import as_money, price_figure
from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.kinds import Part
from builder.model.source.part import Price
from builder.model.values.money_text import Money


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


def pieces_needed(build: Build) -> Counter[str]:
    """How many pieces of each part of the shelf are in a build and its batteries."""
    out: Counter[str] = Counter()
    for f in build.parts.values():
        out[f.shelf] += f.count
    for p in build.packs.values():
        out[p.shelf] += p.pieces
    return out


def _part(build: Build, shelf: str) -> Part:
    return build.shelf[shelf].part


def _price_in(build: Build, shelf: str) -> tuple[Price | None, Where]:
    """What a build pays for a part of the shelf, and the place of that price."""
    entry = build.shelf[shelf]
    used = [f for f in build.parts.values() if f.shelf == shelf]
    if not used:
        return entry.part.price, entry.where.at("price")
    last = used[-1]
    where = last.where if last.use.price else last.shelf_where
    return last.use.price or last.part.price or entry.part.price, where.at("price")


def price_of_bag(build: Build, shelf: str) -> tuple[MaybeFigure, int]:
    """The price of one purchase of a part, and how many pieces are in it."""
    price, where = _price_in(build, shelf)
    sold_in = max(1, price.sold_in) if price is not None else 1
    name = _part(build, shelf).name
    return price_figure(build, f"{build.name}/bag/{shelf}", name, price, sold_in, where), sold_in


def conversion(a: Build, b: Build) -> Conversion:
    """Parts are the same where the shelf's entry is the same. Spares and postage are not counted."""
    have, need = pieces_needed(a), pieces_needed(b)
    buy = []
    for shelf, pieces in (need - have).items():
        price, where = _price_in(b, shelf)
        sold_in = max(1, price.sold_in) if price is not None else 1
        bought = -(-pieces // sold_in) * sold_in
        name = _part(b, shelf).name
        cost = price_figure(b, f"{a.name}/into/{b.name}/{shelf}", name, price, bought, where)
        buy.append(Purchase(shelf, name, pieces, bought, cost))
    label = f"Cost to turn {a.name} into {b.name}"
    cost = total(f"{a.name}/into/{b.name}/cost", label, b.site.currency, (p.price for p in buy))
    keep = tuple((_part(b, s).name, n) for s, n in (have & need).items())
    left_over = tuple((_part(a, s).name, n) for s, n in (have - need).items())
    amount = as_money(cost, b.site.currency) or Money(0, b.site.currency)
    return Conversion(keep, tuple(buy), left_over, cost, amount)
