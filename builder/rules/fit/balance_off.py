"""A centre of gravity that lies far from the middle of the motors.

Checks: for each battery, the share of the weight that each motor carries in a hover against an
equal share. A share of 1.2 times that is a remark, of 1.5 times a fault.
Why: the motors near it work hard in a hover and have nothing left to catch a gust: the aircraft dips
that way and turns over.
Example: a battery that is strapped 40 mm in front of the middle of a small frame.
Mend: move the battery; the sheet's balance says where to.
Source: statics for the shares; the limits are common practice, no source
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed_list
from builder.rules.fit._airframe import frames
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_WORTH_A_WORD, _TOO_MUCH = assumed_list("weight and size/motor-share")


def check(case: Case) -> Iterator[Outcome]:
    if not any(frame.motors for _, frame in frames(case.build)):
        return
    balance = case.results.balance
    known = {p.pack: p.shares for p in balance.packs} if balance is not None else {}
    for key, pack in case.build.packs.items():
        said, where = known.get(key, {}), pack.where
        shares = {n: s for n, s in said.items() if isinstance(s, Figure)}
        if not shares or len(shares) < len(said):
            yield NotJudged(f"places of the motors and of battery {key}", where)
            continue
        number = max(shares, key=lambda n: shares[n].value)
        over = shares[number].value * len(shares)
        if over <= _WORTH_A_WORD:
            yield Judged()
            continue
        text = say(
            "With battery {} motor {} carries {} times its share of the weight.",
            key,
            number,
            made(over, "1", decimals=2),
        )
        severity = None if over > _TOO_MUCH else Severity.REMARK
        yield Found(text, "Move the battery away from that motor.", where.at("at"), severity)
