"""A comparison as plain values for JSON: SI, money in whole minor units."""

from builder.compute.circuit.contacts import Join
from builder.compute.compare.difference import Difference, LineChange, Pair
from builder.compute.compare.part_changes import PartChange
from builder.compute.compare.turning_work import TurningWork
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.figures.told import WordsOrTold
from builder.diagnostics.finding import Finding
from builder.diagnostics.show import figures_record
from builder.model.values.money_text import Money
from builder.pages.compare.lists import steps_as_shown
from builder.pages.sheet_input import SheetInput
from builder.pages.told_words import told_words
from builder.rules.could_stay import Stay


def _plain(figure: MaybeFigure | None) -> dict[str, object] | None:
    return (
        {"value": figure.value, "spread": figure.spread, "unit": figure.unit}
        if isinstance(figure, Figure)
        else None
    )


def _pair(p: Pair) -> dict[str, object]:
    sides = {"first": _plain(p.first), "second": _plain(p.second), "difference": _plain(p.change)}
    return {"key": p.key, "label": p.label, **sides}


def _part(p: PartChange) -> dict[str, object]:
    return {
        "place": p.key,
        "how": p.how,
        "first": p.first,
        "second": p.second,
        "grams": _plain(p.grams),
        "money": p.money.minor if isinstance(p.money, Money) else None,
    }


def _join(join: Join | None) -> dict[str, object] | None:
    if join is None:
        return None
    wire = join.wire
    if wire is None:
        return {"by": join.by}
    gauge = wire.gauge.label if wire.gauge is not None else None
    length = wire.length.value if wire.length is not None else None
    return {"by": join.by, "colour": wire.colour, "gauge": gauge, "length": length}


def _lines(lines: tuple[LineChange, ...]) -> dict[str, list[str]]:
    """What only one of them says."""
    return {
        "only_first": [x.text for x in lines if x.first and not x.second],
        "only_second": [x.text for x in lines if x.second and not x.first],
    }


def _step(step: tuple[int, WordsOrTold] | None) -> dict[str, object] | None:
    if step is None:
        return None
    return {"number": step[0] or None, "text": told_words(step[1])}


def _finding(f: Finding) -> dict[str, object]:
    figures = figures_record(f.message)
    return {"code": f.code, "severity": f.severity, "message": f.message, "figures": figures}


def _stay(stay: Stay) -> dict[str, object]:
    return {
        "place": stay.key,
        "part": stay.label,
        "fits": stay.fits,
        "answer": stay.answer,
        "lost_joins": list(stay.lost),
        "findings": [_finding(f) for f in stay.new],
        "passed": list(stay.passed),
        "lacking": list(stay.lacking),
    }


def _work(work: TurningWork) -> dict[str, object]:
    low, high = work.time or (None, None)
    return {
        "joints_to_unsolder": work.joints_off,
        "joints_to_solder": work.joints_on,
        "parts_off": work.parts_off,
        "parts_on": work.parts_on,
        "gates": work.gates,
        "seconds_least": low,
        "seconds_most": high,
    }


def compare_record(
    found: Difference, verdict: str, sides: tuple[SheetInput, SheetInput], stays: tuple[Stay, ...]
) -> dict[str, object]:
    """What differs, and what it takes to turn the first into the second."""
    way, (a, b) = found.conversion, sides
    return {
        "first": found.first,
        "second": found.second,
        "verdict": verdict,
        "figures": [_pair(p) for p in (found.dry, *found.all_up, *found.flight)],
        "batteries": [{"for": list(u.purposes), "packs": list(u.packs)} for u in found.uses],
        "parts": [_part(p) for p in found.parts],
        "money": {
            "currency": found.price[0].currency,
            "first": found.price[0].minor,
            "second": found.price[1].minor,
            "first_at_least": found.unpriced[0],
            "second_at_least": found.unpriced[1],
            "to_convert": way.money.minor,
            "at_least": bool(way.cost.lacks),
        },
        "wiring": [
            {
                "ends": list(c.ends),
                "nets": list(c.nets),
                "first": _join(c.first),
                "second": _join(c.second),
            }
            for c in found.wiring
            if c.differs
        ],
        "plugs": _lines(found.plugs),
        "steps": [
            {"step": c.id, "first": _step(c.first), "second": _step(c.second), "moved": c.moved}
            for c in steps_as_shown(found.order)
            if c.differs
        ],
        "setup": _lines(found.setup),
        "findings": {
            side.build.name: [_finding(f) for f in side.verdict.findings] for side in (a, b)
        },
        "work": _work(found.work),
        "keep": [{"part": name, "pieces": n} for name, n in way.keep],
        "to_buy": [{"part": p.shelf, "needed": p.needed, "bought": p.bought} for p in way.buy],
        "left_over": [{"part": name, "pieces": n} for name, n in way.left_over],
        "could_stay": [_stay(s) for s in stays],
    }
