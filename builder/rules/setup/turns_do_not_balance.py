"""Motors whose turns do not balance.

Checks: any layout but four corners, which are checked by their neighbours. Each motor needs some lift to hover
without turning round, by its place on the frame and its turn. 1.2 times an equal share is a remark, 1.5 times a
fault. Motors above each other turn against each other. With three places and one motor each, a motor has to tilt:
that is not checked.
Why: what cannot be turned round without tilting flips or spins at take-off.
Example: six arms, the left three motors clockwise and the right three counter-clockwise.
Mend: let neighbours turn against each other. Swap two phases of the wrong motor, or its setting.
Source: balance of forces and moments; the limits are common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.clearances import motor_places, on_one_axis
from builder.compute.setup.rotor_shares import in_one_line, rotor_shares, sites
from builder.compute.setup.settings import RING
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.load.assumed import assumed_list
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
YIELDS_TO = ("setup/rotation-unlike-frame",)
_WORTH_A_WORD, _TOO_MUCH = assumed_list("weight and size/motor-share")
_FEWEST = 3
_MEND = "Let neighbours turn against each other."


def _lacking(case: Case, turns: dict[str, str]) -> str | None:
    """What is not known of a layout, None if nothing lacks."""
    places = motor_places(case.build)
    for number, turn in turns.items():
        if not turn:
            return f"which way motor {number} turns"
        if number not in places:
            return f"place of motor {number} on the frame"
    here = {n: places[n] for n in turns}
    if sites(here) < _FEWEST or len(here) == _FEWEST:
        return "how it is turned round: with three motors or fewer places one has to tilt"
    if in_one_line(here):
        return "how it is tilted: its motors are in one line"
    return None


def _pairs(case: Case, turns: dict[str, str], balanced: bool) -> Iterator[Outcome]:
    places = {n: p for n, p in motor_places(case.build).items() if n in turns}
    where = case.build.where("setup", "rotation", "turns")
    for one, other in on_one_axis(places):
        if turns[one] != turns[other]:
            yield Judged()
            continue
        both = " and ".join(sorted((one, other)))
        text = f"Motors {both} are above each other and both turn {turns[one]}."
        hint = "Motors above each other turn against each other."
        severity = Severity.REMARK if balanced else None
        yield Found(text, hint, where, severity)


def _balance(shares: dict[str, float] | None, where: Where | None) -> Outcome:
    if shares is None:
        text = "With these turns the motors cannot turn the aircraft round without tilting it."
        return Found(text, _MEND, where)
    most = max(shares, key=lambda n: shares[n])
    over = shares[most]
    if over <= _WORTH_A_WORD:
        return Judged()
    told = say(
        "With these turns motor {} lifts {} times its share, to hover without turning round.",
        most,
        made(over, "1", decimals=2),
    )
    severity = None if over > _TOO_MUCH else Severity.REMARK
    return Found(told, _MEND, where, severity)


def check(case: Case) -> Iterator[Outcome]:
    motors = case.results.settings.motors
    corners = {m.corner for m in motors}
    if not motors or corners == set(RING) or len(corners) < len(motors):
        return  # four corners, or two motors at one, are for their neighbours
    turns = {m.number: m.turns for m in motors}
    where = case.build.where("setup", "rotation", "turns")
    lacks = _lacking(case, turns)
    if lacks is not None:
        yield NotJudged(lacks, case.build.where("setup", "rotation"))
        return
    places = motor_places(case.build)
    here = {n: places[n] for n in turns}
    shares = rotor_shares(here, {n: t == "clockwise" for n, t in turns.items()})
    balance = _balance(shares, where)
    told = list(_pairs(case, turns, isinstance(balance, Judged)))
    yield from told
    if not any(isinstance(one, Found) for one in told):
        yield balance  # else the pair that turns alike is the cause
