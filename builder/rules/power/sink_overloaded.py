"""A pad that switches or carries more than it is made for.

Checks: the current through each pad and contact for which the maker names a limit (`limit`). A supply, a ground and
a battery pad carry all that goes in or out there. The copper between two pads is checked with them. A motor's pads
carry the current of the motor. Above the limit for long is a fault, at full throttle only a remark. Without motors a
peak above it is a fault.
Why: the transistor or the copper behind the pad burns, and what hangs on it stays on or off for good.
Example: lights of 400 mA on a buzzer pad of 200 mA.
Mend: hang the load on a rail, or put a switch of its own between.
Source: common practice, no source; Kirchhoff's law of currents
"""

from collections.abc import Iterable, Iterator
from math import fsum

from builder.compute.circuit.rails import Supplied
from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.power.pad_current import PadCurrent, current_through
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.sentence import Amount
from builder.diagnostics.where import Where
from builder.model.build import Contact
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_EXACT = 1.0 + 1e-9
_ON_A_RAIL = "Hang the load on a rail, or put a switch of its own between."
_SHARE = "Share the current among several pads, or take a board that carries it."
_BRIEFLY = "Keep full throttle short."
_NO_PUNCH = "current at full throttle: a bench table of the motor with this propeller"


def _limit(case: Case, pad: Contact) -> tuple[float, Where]:
    """What a pad is made for (A), and where that stands."""
    most = case.build.pad(pad).limit
    assert most is not None, pad
    return most.value, case.build.parts[pad.part].shelf_where.at("pads", pad.pad, "limit")


def _found(case: Case, pad: Contact, of: str, current: Amount, hint: str, at: Where) -> Found:
    most, see = _limit(case, pad)
    told = say("{} carries {} of {}; it is made for {}.", pad, current, of, given(most, "A"))
    return Found(told, hint, at, see=(see,))


def _on_pad(case: Case, pad: Contact) -> list[Supplied]:
    """Loads whose minus is wired to a switched pad."""
    power, nets = case.results.power, case.results.netlist
    loads = (*power.on_pack, *(s for row in power.rails for s in row.supplied))
    boards = {c.board for c in nets.of[pad].contacts if c.board != pad.board}
    return [s for s in loads if s.load.part in boards]


def _switched(case: Case, pad: Contact) -> Iterator[Outcome]:
    loads = _on_pad(case, pad)
    if not loads:
        return
    known = [s.peak.value for s in loads if isinstance(s.peak, Figure)]
    unknown = [s.load for s in loads if not isinstance(s.peak, Figure)]
    yield from (NotJudged(f"current of {one.part}", one.where) for one in unknown)
    if fsum(known) <= _limit(case, pad)[0] * _EXACT:
        if not unknown:
            yield Judged()
        return
    names = ", ".join(s.load.part for s in loads)
    at = case.build.parts[loads[0].load.pad.part].where
    yield _found(case, pad, names, made(fsum(known), "A"), _ON_A_RAIL, at)


def _key(figures: tuple[MaybeFigure, ...]) -> str:
    """The key behind a sum: that of the one current, none where several make it up."""
    return figures[0].key if len(figures) == 1 else ""


def _carried(case: Case, pad: Contact) -> Iterator[Outcome]:
    """A pad by what its wires and plugs bring or take."""
    through = current_through(case.results.path, pad)
    if through is None:
        return
    most = _limit(case, pad)[0] * _EXACT
    for_long = through.lasting > most
    if for_long or through.peak > most:
        yield _too_much(case, pad, through, for_long)
    elif through.missing:
        yield from (NotJudged(m, case.build.parts[pad.part].where) for m in through.missing)
    else:
        yield Judged()


def _too_much(case: Case, pad: Contact, through: PadCurrent, for_long: bool) -> Found:
    names, at = ", ".join(through.boards), case.results.netlist.at[pad][0].where
    if for_long:
        current = made(through.lasting, "A", _key(through.steady))
        return _found(case, pad, names, current, _SHARE, at)
    current = made(through.peak, "A", _key(through.short))
    if through.motors:
        return _punch(case, pad, names, current, at)
    return _found(case, pad, names, current, _SHARE, at)


def _punch(case: Case, pad: Contact, of: str, current: Amount, at: Where) -> Found:
    """What only full throttle is too much for: a remark."""
    found = _found(case, pad, f"{of} at full throttle", current, _BRIEFLY, at)
    return Found(found.message, found.hint, at, Severity.REMARK, see=found.see)


def _each(figures: Iterable[MaybeFigure], rotors: int) -> Amount | None:
    """The current of one motor, on the battery that drives most through it."""
    known = [f for f in figures if isinstance(f, Figure)]
    most = max(known, key=lambda f: f.value, default=None)
    return made(most.value / rotors, "A", most.key) if most is not None and rotors else None


def _motor(case: Case, pad: Contact) -> Iterator[Outcome]:
    """A motor's pad by the current of one motor."""
    flown, at = case.results.flight, case.results.netlist.at[pad][0].where
    mean, peak = (
        _each((getattr(p, name) for p in flown.packs.values()), flown.drive.rotors)
        for name in ("styled_current", "peak_current")
    )
    most = _limit(case, pad)[0] * _EXACT
    if mean is not None and mean.value > most:
        yield _found(case, pad, "one motor", mean, _SHARE, at)
    elif peak is None:
        yield NotJudged(_NO_PUNCH, at)
    elif peak.value > most:
        yield _punch(case, pad, "one motor", peak, at)
    else:
        yield Judged()


_BY_ROLE = {
    "sink": _switched,
    "supply": _carried,
    "draws": _carried,
    "ground": _carried,
    "phase": _motor,
}


def check(case: Case) -> Iterator[Outcome]:
    for pad in case.build.contacts:
        judge = _BY_ROLE.get(case.build.pad(pad).role)
        limited = case.build.pad(pad).limit is not None and pad in case.results.netlist.at
        if judge is not None and limited:
            yield from judge(case, pad)
