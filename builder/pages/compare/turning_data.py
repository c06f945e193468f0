"""What a build hands to the page for any two builds, to say what it takes to turn one into another."""

from collections.abc import Mapping

from builder.compute.compare.turning_work import SPREAD, TIMES, again_in
from builder.compute.compare.wiring_difference import joins_by_ends, made_of
from builder.compute.figures.figure import Figure
from builder.compute.money.convert import pieces_needed, price_of_bag
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
    ends = dict.fromkeys((*sorted((str(r.start), str(r.end))),) for r in build.wires)
    wires = {words: i for i, words in enumerate(ends)}
    parts = {
        tuple(sorted((str(r.start), str(r.end)))): sorted({r.start.part, r.end.part})
        for r in build.wires
    }
    joints = []
    for joint in results.joints:
        pairs = (tuple(sorted((str(j.a), str(j.b)))) for j in joint.wires)
        held = [wires[p] for p in pairs if p in wires]
        joints.append([i for i in held if str(joint.contact) in list(ends)[i]])
    return {
        "pieces": [_piece(build, shelf, n) for shelf, n in pieces_needed(build).items()],
        "joins": [[*pair, made] for pair, made in joins.items()],
        "wires": [[*pair, *parts[pair]] for pair in wires],
        "joints": [j for j in joints if j],
        "again": again_in(results.order),
        "times": {**TIMES, "spread": SPREAD},
    }
