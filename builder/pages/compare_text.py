"""A comparison as text for the terminal and as plain values for JSON."""

from builder.compute.difference import Difference, Pair
from builder.compute.figure import Figure, Known
from builder.model.build import Build
from builder.pages.numbers import money, number
from builder.pages.verdict_line import verdict_line


def _shown(figure: Known, *, spread: bool = False) -> str:
    made = number(figure, spread=spread)
    return " ".join(w for w in (made.prefix, made.value, made.unit, made.spread) if w)


def _line(pair: Pair) -> str:
    sign = "+" if isinstance(pair.change, Figure) and pair.change.value > 0 else ""
    return f"  {pair.label:<34} {_shown(pair.first):>14} {_shown(pair.second):>14}   {sign}{_shown(pair.change, spread=True)}"


def as_text(found: Difference, a: Build, b: Build) -> str:
    """The verdict, the figures, the parts that differ and the wires."""
    lines = [verdict_line(found, a, b), "", f"  {'':<34} {found.first:>14} {found.second:>14}   difference"]
    lines += [_line(p) for p in (found.dry, *found.all_up, *found.flight)]
    lines += ["", "Parts that differ"]
    for part in found.parts:
        if part.how != "same":
            cost = f", {money(part.money)}" if part.money is not None and part.money.minor else ""
            lines.append(
                f"  {part.key} ({part.how}): {part.first or 'nothing'} -> {part.second or 'nothing'}, {_shown(part.grams)}{cost}"
            )
    for heading, wires in (("only in " + found.first, found.wires_gone), ("only in " + found.second, found.wires_new)):
        if wires:
            lines += ["", f"Wires {heading}", *(f"  {w}" for w in wires)]
    return "\n".join(lines)


def _plain(figure: Known) -> dict[str, object] | None:
    return {"value": figure.value, "spread": figure.spread, "unit": figure.unit} if isinstance(figure, Figure) else None


def as_record(found: Difference) -> dict[str, object]:
    """The same as plain values, in SI."""
    pairs = (found.dry, *found.all_up, *found.flight)
    return {
        "first": found.first,
        "second": found.second,
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
            {"place": p.key, "how": p.how, "first": p.first, "second": p.second, "grams": _plain(p.grams)}
            for p in found.parts
        ],
        "wires_gone": list(found.wires_gone),
        "wires_new": list(found.wires_new),
    }
