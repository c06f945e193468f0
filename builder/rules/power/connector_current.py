"""More current than a battery connector takes.

Checks: what each contact of a battery's connector on the aircraft carries, and the battery's own
half where it takes less. A connector that joins several batteries carries what all give. As the
builder flies, more than its continuous rating is a fault. At full throttle, more than its short
rating is a remark.
Why: a hot connector softens, opens, and lets go in the air.
Example: a cruise at 40 A through a connector for 30 A.
Mend: take a larger connector at both ends.
Source: common practice, no source
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import fsum

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.model.build import Contact, Fitted, FittedPack, piece_name
from builder.model.kinds import Connector
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
_Currents = tuple[list[MaybeFigure], list[MaybeFigure]]  # steady and short


@dataclass(frozen=True)
class _Rated:
    """One half of a connector: what it takes for long and for short (A), and where that stands."""

    name: str
    takes: float
    briefly: float
    key: str
    field: str
    where: Where


def _contacts(fitted: Fitted, piece: int) -> list[Contact]:
    """The contacts of one piece, whatever the batteries' are called."""
    return [Contact(fitted.key, piece, pad) for pad in fitted.part.pads]


def _carried(case: Case, fitted: Fitted, piece: int) -> _Currents:
    """Steady and short currents of the wires at the contact that carries most."""
    path = case.results.path
    found: list[list[MaybeFigure]] = []
    lasting: list[list[MaybeFigure]] = []
    for contact in _contacts(fitted, piece):
        for ways in (path.wires, path.returns):
            wires = [w for w in ways if contact in (w.run.start, w.run.end)]
            found.append([w.short for w in wires])
            lasting.append([w.steady for w in wires])
    most = max(range(len(found)), key=lambda i: (_sum(found[i]), len(found[i])), default=None)
    return ([], []) if most is None else (lasting[most], found[most])


def _sum(currents: list[MaybeFigure]) -> float:
    return fsum(c.value for c in currents if isinstance(c, Figure))


def _key(currents: list[MaybeFigure]) -> str:
    """The key behind a sum: that of the one current, none where several wires share it."""
    return currents[0].key if len(currents) == 1 else ""


def _judged(half: _Rated, currents: _Currents, rows: int = 1) -> Iterator[Outcome]:
    """One half of a connector by the currents through it; `rows` batteries share them."""
    steady, short = currents
    lacking = [m for c in (*steady, *short) if isinstance(c, Unknown) for m in c.missing]
    lasting, peak = _sum(steady) / rows, _sum(short) / rows
    if lasting > half.takes:
        yield Found(
            say(
                "The mean current of {} is more than {} takes for long ({}).",
                made(lasting, "A", _key(steady)),
                half.name,
                given(half.takes, "A", f"{half.key}/continuous"),
            ),
            "Take a larger connector at both ends.",
            half.where,
        )
    elif peak > half.briefly:
        yield Found(
            say(
                "Full throttle takes {} through {}, rated {} for short.",
                made(peak, "A", _key(short)),
                half.name,
                given(half.briefly, "A", f"{half.key}/{half.field}"),
            ),
            "Keep full throttle short, and feel the connector after flying.",
            half.where,
            severity=Severity.REMARK,
        )
    elif lacking:
        yield from (NotJudged(m, half.where) for m in dict.fromkeys(lacking))
    else:
        yield Judged()


def _on_aircraft(case: Case, fitted: Fitted, part: Connector, piece: int) -> Iterator[Outcome]:
    currents = _carried(case, fitted, piece)
    if not currents[0]:
        return  # nothing hangs on it, or the rules of wiring speak of it
    if part.continuous is None:
        yield NotJudged(f"continuous current of {fitted.key}", fitted.shelf_where)
        return
    takes, short = part.continuous.value, part.short
    briefly = short.value if short is not None else takes
    field, board = "short" if short is not None else "continuous", piece_name(fitted.key, piece)
    half = _Rated(board, takes, briefly, f"shelf/{fitted.shelf}", field, fitted.where)
    yield from _judged(half, currents)


def _plugged_into(case: Case) -> list[float]:
    """What the connectors on the aircraft take for long, those of them that say it."""
    parts = (f.part for f in case.build.of_kind(Connector))
    return [p.continuous.value for p in parts if p.continuous is not None]


def _of_battery(case: Case, pack: FittedPack) -> Iterator[Outcome]:
    """The battery's own half; with one battery only where it takes less than the other half."""
    joint = pack.part.connector
    if joint is None or joint.continuous is None:
        return
    takes, others = joint.continuous.value, _plugged_into(case)
    if pack.joined == 1 and others and min(others) <= takes:
        return
    briefly = joint.short.value if joint.short is not None else takes
    field = "connector/short" if joint.short is not None else "connector/continuous"
    name, key = f"the connector of battery {pack.key}", f"shelf/{pack.shelf}"
    half = _Rated(name, takes, briefly, key, field, pack.where)
    flown = case.results.flight.packs[pack.key]
    yield from _judged(half, ([flown.styled_current], [flown.peak_current]), pack.use.parallel)


def _joining(case: Case, pack: FittedPack) -> Iterator[Outcome]:
    """A connector outside the aircraft through which all batteries give together."""
    flown = case.results.flight.packs[pack.key]
    for fitted in case.build.of_kind(Connector):
        takes, short = fitted.part.continuous, fitted.part.short
        if fitted.key not in pack.use.through:
            continue
        if takes is None:
            yield NotJudged(f"continuous current of {fitted.key}", fitted.shelf_where)
            continue
        field, briefly = "short" if short is not None else "continuous", short or takes
        key = f"shelf/{fitted.shelf}"
        half = _Rated(fitted.key, takes.value, briefly.value, key, field, fitted.where)
        yield from _judged(half, ([flown.styled_current], [flown.peak_current]))


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.of_kind(Connector):
        for piece in fitted.pieces:
            yield from _on_aircraft(case, fitted, fitted.part, piece)
    for pack in case.build.packs.values():
        yield from _of_battery(case, pack)
        yield from _joining(case, pack)
