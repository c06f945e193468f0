"""A pad that switches or carries more than it is made for.

Checks: the current of each load against the current that its pad names (`limit`). Such a load has
its minus on a switched pad, or is fed from a supply pad.
Why: the transistor behind the pad burns, and what hangs on it stays on or off for good.
Example: lights of 400 mA on a buzzer pad of 200 mA.
Mend: hang the load on a rail, or put a switch of its own between.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import fsum

from builder.compute.circuit.rails import Supplied
from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Contact
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def _on_pad(case: Case, pad: Contact) -> list[Supplied]:
    """Loads whose supply or minus is wired to the pad itself, not only to its rail."""
    power, nets = case.results.power, case.results.netlist
    loads = (*power.on_pack, *(s for row in power.rails for s in row.supplied))
    boards = {c.board for c in nets.of[pad].contacts if c.board != pad.board}
    return [s for s in loads if s.load.part in boards]


def _wired_there(case: Case, pad: Contact) -> bool:
    return pad in case.results.netlist.at


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for contact in build.contacts:
        pad = build.pad(contact)
        if (
            pad.limit is None
            or pad.role not in ("sink", "supply")
            or not _wired_there(case, contact)
        ):
            continue
        loads = _on_pad(case, contact) if pad.role == "sink" else _fed_by(case, contact)
        if not loads:
            continue
        known = [s.peak.value for s in loads if isinstance(s.peak, Figure)]
        unknown = [s.load for s in loads if not isinstance(s.peak, Figure)]
        yield from (NotJudged(f"current of {one.part}", one.where) for one in unknown)
        if fsum(known) <= pad.limit.value * (1 + 1e-9):
            if not unknown:
                yield Judged()
            continue
        names = ", ".join(s.load.part for s in loads)
        text = say(
            "{} carries {} of {}; it is made for {}.",
            contact,
            made(fsum(known), "A"),
            names,
            given(pad.limit.value, "A"),
        )
        at = build.parts[contact.part].shelf_where.at("pads", contact.pad, "limit")
        hint = "Hang the load on a rail, or put a switch of its own between."
        yield Found(text, hint, build.parts[loads[0].load.pad.part].where, see=(at,))


def _fed_by(case: Case, pad: Contact) -> list[Supplied]:
    """Loads that a wire joins to this very pad."""
    ends = [(r.start, r.end) for r in case.build.wires]
    there = {b.board for a, b in ends if a == pad} | {a.board for a, b in ends if b == pad}
    return [s for s in _on_pad(case, pad) if s.load.part in there]
