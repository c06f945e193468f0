"""What a build hands to the page for any two builds: its figures and places by key, in SI, with
their errors by leaf.

The script subtracts values and adds the differences of errors in square; how a number is shown is
said here.
"""

from builder.compute.compare.compared_places import ComparedPlace, places
from builder.compute.compare.difference import FLIGHT, flight_figures
from builder.compute.compare.purposes import BatteryUse, purposes_of
from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.pages.compare.batteries import battery_words, use_notes
from builder.pages.compare.turning_data import turning_data
from builder.pages.numbers import is_kept
from builder.pages.sheet_input import SheetInput
from builder.rounding import SHOWN

_DIGITS = 8  # of an error: no page shows more than four, and two sheets are read at once


def errors_of(figure: Figure) -> dict[str, float]:
    """Slope times spread by leaf."""
    return {key: slope * figure.leaves[key].own for key, slope in figure.slopes.items() if slope}


def _errors(figure: Figure) -> dict[str, float]:
    """The errors, to as many digits as any difference of them is shown by."""
    return {key: float(f"{error:.{_DIGITS}g}") for key, error in errors_of(figure).items()}


def _known(figure: MaybeFigure) -> dict[str, object]:
    if not isinstance(figure, Figure):
        return {"value": None, "errors": {}, "lacks": False, "reads": "", "anchor": figure.anchor}
    return {
        "value": figure.value,
        "errors": _errors(figure),
        "lacks": bool(figure.lacks),
        "reads": reading_of(figure),
        "anchor": figure.anchor,
    }


def _figure(key: str, label: str, group: str, unit: str, figure: MaybeFigure) -> dict[str, object]:
    shown, factor, decimals = SHOWN[unit]
    kept = isinstance(figure, Figure) and is_kept(figure.key)
    how = {"shown": shown, "factor": factor, "decimals": decimals, "kept": kept}
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


def _use(sheet: SheetInput, use: BatteryUse) -> dict[str, object]:
    """What a battery is for; with an empty name where none serves."""
    found = {"purpose": use.purpose, "pack": use.pack, "shelf": "", "label": ""}
    if use.pack:
        found["shelf"] = sheet.build.packs[use.pack].shelf
        found["label"] = battery_words(sheet.build, use.pack)
    return dict(found)


def compare_data(sheet: SheetInput) -> dict[str, object]:
    """Plain values of one build."""
    results = sheet.results
    uses = purposes_of(sheet.build, results)
    figures = [_figure("dry", "Dry weight", "weight", "kg", results.mass.dry)]
    for pack in dict.fromkeys(use.pack for use in uses if use.pack):
        weight, flight = results.mass.all_up[pack], results.flight.packs[pack]
        held = results.mass.flown_with(pack)
        figures.append(_figure(f"all-up/{pack}", held, "weight", "kg", weight))
        for (key, label, unit), figure in zip(FLIGHT, flight_figures(flight), strict=True):
            figures.append(_figure(f"{key}/{pack}", label, "flight", unit, figure))
    cost, least = results.budget.this_build, bool(results.budget.lacks)
    return {
        "figures": figures,
        "uses": [_use(sheet, use) for use in uses],
        "notes": list(use_notes(sheet.build, results)),
        "turning": turning_data(sheet.build, results),
        "places": [_place(p) for p in places(sheet.build, results)],
        "money": {
            "minor": cost.minor,
            "currency": cost.currency,
            "digits": cost.digits,
            "at_least": least,
        },
    }
