"""A pack, capacitor or polarised load the wrong way round.

Checks: a contact marked plus is on a net with a supply or the battery's plus, one marked minus on a ground net; each
part is judged as a whole, so that both of its wires swapped are found although no net then holds a short by itself.
Why: a reversed pack or capacitor burns at once; a capacitor may burst.
Example: capacitor.PLUS to esc.BAT- and capacitor.MINUS to esc.BAT+.
Mend: swap its two wires.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Contact
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import named, where_joined

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER


def _is_ground(case: Case, contact: Contact) -> bool:
    pad = case.build.pad(contact)
    return pad.role == "ground" or pad.polarity == "minus"


def check(case: Case) -> Iterator[Outcome]:
    nets = case.results.netlist
    for fitted in case.build.parts.values():
        marked = {p: pad.polarity for p, pad in fitted.part.pads.items() if pad.polarity is not None}
        if getattr(fitted.part, "polarised", None) is False:
            continue
        for piece in fitted.pieces:
            wrong = []
            looked = 0
            for name, polarity in marked.items():
                here = Contact(fitted.key, piece, name)
                others = [
                    c
                    for c in nets.of[here].contacts
                    if c.board != here.board
                    and here in nets.at
                    and case.build.pad(c).role in ("ground", "supply", "draws", "sink")
                ]
                if not others:
                    continue
                looked += 1
                ground = sum(1 for c in others if case.build.pad(c).role == "ground")
                if (polarity == "plus" and ground == len(others)) or (
                    polarity == "minus" and ground == 0 and not any(case.build.pad(c).role == "sink" for c in others)
                ):
                    wrong.append(here)
            if len(wrong) >= 2 or (wrong and looked == 1):
                yield Found(
                    f"{wrong[0].board} is the wrong way round: {named(wrong)}.",
                    "Swap its two wires.",
                    where_joined(case, wrong[:1], nets.of[wrong[0]]),
                )
            elif looked:
                yield Judged()
