"""Sums and differences of like figures: a sum leaves out what is unknown, and says so."""

from collections.abc import Iterable
from functools import cache
from math import fsum

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, lacks_of, missing_of
from builder.compute.figures.formula import FormulaText, Symbol
from builder.compute.figures.sloped_formula import Formula
from builder.compute.figures.told import WordsOrTold


def add(*terms: float) -> float:
    """The sum of any number of like figures."""
    return fsum(terms)


def total(
    key: str, label: str, unit: str, parts: Iterable[MaybeFigure], note: WordsOrTold = ""
) -> Figure:
    """A sum that never fails: what is unknown is left out and named, and the total then reads 'at
    least'.
    """
    given = tuple(parts)
    known = tuple(p for p in given if isinstance(p, Figure))
    lacks = tuple(
        dict.fromkeys((*lacks_of(known), *(p.label for p in given if isinstance(p, Unknown))))
    )
    value = fsum(p.value for p in known)
    return Figure(
        key, label, value, unit, formula=_sums(unit), inputs=known, lacks=lacks, note=note
    )


@cache
def _sums(unit: str) -> Formula:
    text = FormulaText(
        "Sum of like figures.", "S = Σ a_i", (), Symbol("Gives", "S", "sum", unit), "", "definition"
    )
    return Formula("add", add, text, lambda *terms: (1.0,) * len(terms))


def difference(key: str, label: str, unit: str, a: MaybeFigure, b: MaybeFigure) -> MaybeFigure:
    """First less second with shared leaves cancelling."""
    missing = missing_of((a, b))
    if missing or isinstance(a, Unknown) or isinstance(b, Unknown):
        return Unknown(key, label, missing)
    return Figure(
        key,
        label,
        a.value - b.value,
        unit,
        formula=_differences(unit),
        inputs=(a, b),
        lacks=lacks_of((a, b)),
    )


def _subtract(a: float, b: float) -> float:
    return a - b


@cache
def _differences(unit: str) -> Formula:
    text = FormulaText(
        "Difference of two like figures.",
        "D = a − b",
        (),
        Symbol("Gives", "D", "difference", unit),
        "",
        "definition",
    )
    return Formula("subtract", _subtract, text, lambda *_: (1.0, -1.0))
