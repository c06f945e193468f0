"""What a build hands to the page for any two builds, to say what it takes to turn one into another."""

from collections.abc import Mapping

from builder.compute.compare.turning_work import again_in, ends_of_wire, heated_at
from builder.compute.compare.wiring_difference import joins_by_ends, made_of
from builder.compute.figures.figure import Figure
from builder.compute.money.convert import pieces_needed, price_of_bag
from builder.compute.order.effort import WORK_SPREAD, WORK_TIMES
from builder.compute.results import Results
from builder.model.build import Build


def _piece(build: Build, shelf: str, count: int) -> dict[str, object]:
    price = price_of_bag(build, shelf)
    bag = price[0].value if isinstance(price[0], Figure) else None
    return {"shelf": shelf, "count": count, "sold_in": price[1], "bag": bag}


def _made(words: tuple[object, ...]) -> str:
    return "/".join("" if w is None else str(w) for w in words)


def turning_data(build: Build, results: Results) -> Mapping[str, object]:
    """Pieces with the price of a bag; joins by their ends with what makes them; wires with the parts
    at their ends; which wires each joint heats; what is gone through again, and usual times in s.
    """
    joins = {
        ends: _made(made_of(join)) for ends, (_, join) in joins_by_ends(results.netlist).items()
    }
    parts = {ends_of_wire(r): sorted({r.start.part, r.end.part}) for r in build.wires}
    wires = {ends: i for i, ends in enumerate(parts)}
    joints = [[wires[w] for w in heated_at(j) if w in wires] for j in results.joints]
    return {
        "pieces": [_piece(build, shelf, n) for shelf, n in pieces_needed(build).items()],
        "joins": [[*pair, made] for pair, made in joins.items()],
        "wires": [[*ends, *on] for ends, on in parts.items()],
        "joints": [j for j in joints if j],
        "again": again_in(results.order),
        "times": {**{str(kind): t for kind, t in WORK_TIMES.items()}, "spread": WORK_SPREAD},
    }
