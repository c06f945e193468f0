"""A comparison as text for the terminal and as plain values for JSON."""

from collections.abc import Iterable, Sequence

from builder.compute.difference import Difference, Pair, PartChange
from builder.compute.figure import Figure, Known
from builder.model.build import Build
from builder.pages.numbers import money, number
from builder.pages.verdict_line import verdict_line

_LISTS = ("wires", "plugs", "steps", "setup")


def _shown(figure: Known, *, spread: bool = False) -> str:
    made = number(figure, spread=spread, steady=True)
    return " ".join(w for w in (made.prefix, made.value, made.unit, made.spread) if w)


def _line(pair: Pair) -> str:
    sign = "+" if isinstance(pair.change, Figure) and pair.change.value > 0 else ""
    return f"  {pair.label:<34} {_shown(pair.first):>14} {_shown(pair.second):>14}   {sign}{_shown(pair.change, spread=True)}"


def _part(part: PartChange) -> str:
    grams = f", {_shown(part.grams)}" if part.grams is not None else ""
    cost = f", {money(part.money)}" if part.money is not None and part.money.minor else ""
    return f"  {part.key} ({part.how}): {part.first or 'nothing'} -> {part.second or 'nothing'}{grams}{cost}"


def _listed(heading: str, items: Iterable[str]) -> list[str]:
    lines = [f"  {i}" for i in items]
    return ["", heading, *lines] if lines else []


def as_text(found: Difference, a: Build, b: Build, clauses: Sequence[str] = ()) -> str:
    """The verdict, the figures, the places that differ, wires, setup, and the cost to convert."""
    lines = [verdict_line(found, a, b, clauses), "", f"  {'':<34} {found.first:>14} {found.second:>14}   difference"]
    lines += [_line(p) for p in (found.dry, *found.all_up, *found.flight)]
    lines += _listed("Places that differ", (_part(p).strip() for p in found.parts if p.differs))
    for name, gone in (
        (found.first, (found.wires_gone, found.plugs_gone, found.steps_gone, found.setup_gone)),
        (found.second, (found.wires_new, found.plugs_new, found.steps_new, found.setup_new)),
    ):
        for what, items in zip(("Wires", "Plugs", "Steps", "Setup"), gone, strict=True):
            lines += _listed(f"{what} only in {name}", items)
    way = found.conversion
    bought = (f"{p.needed} x {p.label}" for p in way.buy)
    lines += _listed(f"To buy, to turn {found.first} into {found.second}", bought)
    least = "at least " if way.cost.lacks else ""
    lines += ["", f"What has to be bought costs {least}{money(way.money)}, without spares and postage."]
    return "\n".join(lines)


def _plain(figure: Known | None) -> dict[str, object] | None:
    return {"value": figure.value, "spread": figure.spread, "unit": figure.unit} if isinstance(figure, Figure) else None


def as_record(found: Difference, verdict: str = "") -> dict[str, object]:
    """The same as plain values: SI, money in whole minor units."""
    pairs = (found.dry, *found.all_up, *found.flight)
    way = found.conversion
    return {
        "first": found.first,
        "second": found.second,
        "verdict": verdict,
        "figures": [
            {
                "key": p.key,
                "label": p.label,
                "first": _plain(p.first),
                "second": _plain(p.second),
                "difference": _plain(p.change),
            }
            for p in pairs
        ],
        "parts": [
            {
                "place": p.key,
                "how": p.how,
                "first": p.first,
                "second": p.second,
                "grams": _plain(p.grams),
                "money": p.money.minor if p.money is not None else None,
            }
            for p in found.parts
        ],
        "money": {
            "currency": found.price[0].currency,
            "first": found.price[0].minor,
            "second": found.price[1].minor,
            "to_convert": way.money.minor,
        },
        "to_buy": [{"part": p.shelf, "needed": p.needed, "bought": p.bought} for p in way.buy],
        **{f"{name}_{end}": list(getattr(found, f"{name}_{end}")) for name in _LISTS for end in ("gone", "new")},
    }
