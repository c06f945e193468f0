"""A derivation as text for the terminal: the tree of a figure, what spreads it, and the sources of
its formulas.
"""

from math import fsum

from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure
from builder.pages.derivations.derivation import origin, share_text, symbols, with_spread

MOST_SHARES = 8


def _lines(figure: Figure, depth: int, symbol: str, shown: set[str]) -> list[str]:
    head = (
        "  " * depth + (f"{symbol} = " if symbol else "") + f"{with_spread(figure)}  {figure.label}"
    )
    if figure.lacks:
        head += f"  ({reading_of(figure)}: without {', '.join(figure.lacks)})"
    if figure.formula is None:
        return [f"{head}  [{origin(figure)}]"]
    if figure.key in shown:
        return [f"{head}  [above]"]
    shown.add(figure.key)
    lines = [head, "  " * (depth + 1) + figure.formula.text.formula]
    for one, given in zip(symbols(figure), figure.inputs, strict=True):
        lines += _lines(given, depth + 1, one.symbol, shown)
    return lines


def trace_text(figure: Figure) -> str:
    """The tree of one figure, each inner figure opened once, then its leaves by share of the
    variance.
    """
    lines = [figure.key, *_lines(figure, 0, "", set())]
    shares = figure.contributions()
    if shares:
        lines += ["", "Where the spread comes from:"]
        lines += [
            f"  {share_text(share):>12}  {leaf.label}  [{leaf.key}]"
            for leaf, share in shares[:MOST_SHARES]
        ]
        if len(shares) > MOST_SHARES:
            rest = fsum(share for _, share in shares[MOST_SHARES:])
            lines.append(f"  {share_text(rest):>12}  {len(shares) - MOST_SHARES} others")
    made = [f.formula for f in figure.derivation if f.formula is not None]
    sources = {f"{how.text.title} {how.text.source}" for how in made}
    if sources:
        lines += ["", "Sources of the formulas:", *(f"  {s}" for s in sorted(sources))]
    return "\n".join(lines)
