"""A battery, capacitor or polarised load the wrong way round.

Checks: each part as a whole: its plus (or what draws) is on ground or on a switched minus. Its
minus (or ground) is on a supply.
Why: a reversed battery or capacitor burns at once; a capacitor may burst, a board dies before the
smoke is seen.
Example: capacitor.PLUS to esc.BAT- and capacitor.MINUS to esc.BAT+.
Mend: swap its two wires.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.print_pads import doubt_words, in_doubt
from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import named, where_joined
from builder.rules.wiring._polarity import poles, reversed_pieces

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER


def check(case: Case) -> Iterator[Outcome]:
    turned = reversed_pieces(case)
    for fitted in case.build.parts.values():
        for piece in fitted.pieces:
            plus, minus = poles(case, fitted.key, piece)
            if plus and plus[0].board in turned:
                contacts = turned[plus[0].board]
                where = where_joined(case, plus[:1], case.results.netlist.of[plus[0]])
                yield Found(
                    f"{plus[0].board} is the wrong way round: {named(contacts)}.",
                    "Swap its two wires.",
                    where,
                )
            elif plus and minus:
                nets = case.results.netlist
                on = {nets.of[c].name: nets.of[c] for c in (*plus, *minus)}
                doubt = tuple(c for net in on.values() for c in in_doubt(case.build, nets, net))
                said = NotJudged(doubt_words(doubt), fitted.shelf_where)
                yield said if doubt else Judged()
