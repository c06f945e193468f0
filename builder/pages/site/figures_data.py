"""What sheet.json carries: leaves, and figures with inputs and local partials, so that anyone can
rebuild all slopes.

The slope of a figure by a leaf is the sum, over all ways from it to the leaf, of the product of the
partials on the way; its spread is the square root of the sum of (slope times the leaf's spread)
squared. All values are in SI.
"""

from collections.abc import Iterable

from builder.compute.figures.figure import Figure
from builder.pages.compare.data import compare_data, errors_of
from builder.pages.sheet_input import SheetInput
from builder.pages.summaries.summarise import headline
from builder.pages.told_words import note_words


def _leaf(figure: Figure) -> dict[str, object]:
    return {
        "label": figure.label,
        "value": figure.value,
        "unit": figure.unit,
        "spread": figure.own,
        "basis": figure.basis,
        "from": figure.where.cite() if figure.where is not None else note_words(figure),
    }


def _made(figure: Figure) -> dict[str, object]:
    how = figure.formula
    said = {"function": "", "text": "", "source": ""}
    if how is not None:
        name = how.function.__name__.lstrip("_")
        said = {"function": name, "text": how.text.formula, "source": how.text.source}
    return {
        "label": figure.label,
        "value": figure.value,
        "unit": figure.unit,
        "spread": figure.spread,
        **said,
        "inputs": [i.key for i in figure.inputs],
        "partials": list(figure.partials),
        "lacks": list(figure.lacks),
        "shape": figure.shape,
    }


def known_headline(sheet: SheetInput) -> dict[str, Figure]:
    """The figures that comparisons use, by the name under which all builds have them; those that
    are known.
    """
    return {name: figure for name, figure in headline(sheet).items() if isinstance(figure, Figure)}


def figures_data(sheet: SheetInput, figures: Iterable[Figure]) -> dict[str, object]:
    """Plain values of one build, SI throughout, money in whole minor units."""
    given = tuple(figures)
    unknown = sheet.unknown
    budget = sheet.results.budget
    return {
        "build": sheet.build.name,
        "title": sheet.build.title,
        "leaves": {f.key: _leaf(f) for f in given if f.formula is None},
        "figures": {f.key: _made(f) for f in given if f.formula is not None},
        "unknown": {u.key: {"label": u.label, "missing": list(u.missing)} for u in unknown},
        "headline": {
            name: {
                "key": f.key,
                "value": f.value,
                "unit": f.unit,
                "lacks": list(f.lacks),
                "errors": errors_of(f),
            }
            for name, f in known_headline(sheet).items()
        },
        "money": {
            "currency": budget.currency,
            "this_build": budget.this_build.minor,
            "at_the_till": budget.at_the_till.minor,
            "packs": budget.packs_total.minor,
            "bought_once": budget.once_total.minor,
        },
        "compare": compare_data(sheet),
        "parts": [
            {
                "key": f.key,
                "shelf": f.shelf,
                "name": f.part.name,
                "count": f.count,
                "spares": f.use.spares,
            }
            for f in sheet.build.parts.values()
        ],
    }
