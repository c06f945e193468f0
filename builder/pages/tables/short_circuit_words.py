"""What a dead short at the battery leads would do, in one line."""

from builder.compute.figures.figure import Figure
from builder.compute.power.short_circuit import ShortCircuit
from builder.pages.blocks import Cell
from builder.pages.numbers import cell, number
from builder.rounding import rounded


def short_circuit_words(short: ShortCircuit | None) -> Cell | None:
    """The current, estimated, and what melts first; None without a battery."""
    if short is None:
        return None
    current = number(short.current, decimals=0)
    if not isinstance(short.current, Figure):
        return cell(current)
    lacks = f"; gauge not known: {', '.join(short.untold)}" if short.untold else ""
    if short.after is None:
        first = "what melts first is not known" if short.untold else "no lead melts within seconds"
        return cell(current, f", {first}{lacks}")
    soon, late = (rounded(s, 1) for s in short.after)
    return cell(current, f", {short.melts} melts in {soon} to {late} s{lacks}")
