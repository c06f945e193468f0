"""What a build hands to the page for any two builds: its figures and places by key, in SI, with
their errors by leaf.

The script subtracts values and adds the differences of errors in square; how a number is shown is
said here.
"""

from builder.compute.compare.compared_places import ComparedPlace, places
from builder.compute.compare.difference import FLIGHT, flight_figures
from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.pages.sheet_input import SheetInput
from builder.rounding import SHOWN


def errors_of(figure: Figure) -> dict[str, float]:
    """Slope times spread by leaf."""
    return {key: slope * figure.leaves[key].own for key, slope in figure.slopes.items() if slope}


def _known(figure: MaybeFigure) -> dict[str, object]:
    if not isinstance(figure, Figure):
        return {"value": None, "errors": {}, "lacks": False, "reads": "", "anchor": figure.anchor}
    return {
        "value": figure.value,
        "errors": errors_of(figure),
        "lacks": bool(figure.lacks),
        "reads": reading_of(figure),
        "anchor": figure.anchor,
    }


def _figure(key: str, label: str, group: str, unit: str, figure: MaybeFigure) -> dict[str, object]:
    shown, factor, decimals = SHOWN[unit]
    how = {"shown": shown, "factor": factor, "decimals": decimals}
    return {"key": key, "label": label, "group": group, **how, **_known(figure)}


def _place(place: ComparedPlace) -> dict[str, object]:
    weight = _known(place.grams) if place.grams is not None else None
    return {
        "key": place.key,
        "kind": place.kind,
        "shelf": place.shelf,
        "count": place.count,
        "name": place.name,
        "weight": weight,
        "money": place.money.minor if place.money is not None else None,
        "unpriced": place.unpriced,
    }


def compare_data(sheet: SheetInput) -> dict[str, object]:
    """Plain values of one build."""
    results = sheet.results
    figures = [_figure("dry", "Dry weight", "weight", "kg", results.mass.dry)]
    for pack, weight in results.mass.all_up.items():
        label = f"Flying weight (all-up) with {results.mass.flown_with(pack)}"
        figures.append(_figure(f"all-up/{pack}", label, "weight", "kg", weight))
    for pack, flight in results.flight.packs.items():
        for (key, label, unit), figure in zip(FLIGHT, flight_figures(flight), strict=True):
            figures.append(_figure(f"{key}/{pack}", f"{label} on {pack}", "flight", unit, figure))
    cost, least = results.budget.this_build, bool(results.budget.lacks)
    return {
        "figures": figures,
        "places": [_place(p) for p in places(sheet.build, results)],
        "money": {
            "minor": cost.minor,
            "currency": cost.currency,
            "digits": cost.digits,
            "at_least": least,
        },
    }
