"""A receiver that a strong sender beside it makes deaf.

Checks: the level of the picture at the control receiver's antenna, by power, gains and the way between both antennas.
It is compared with what the receiver bears on another band (`bears`, its maker's figure for blocking). No loss by
polarisation is counted. Picture and control on one band are found by 'Two links on one band'.
Why: the first stage of the receiver is driven into saturation, and the range of the control shrinks.
Example: 800 mW of picture 40 mm from the antenna of a receiver that bears 0 dBm.
Mend: put the antennas further apart, or send the picture with less power.
Source: Friis's equation; what a receiver bears is its maker's figure, measured as ETSI EN 300 328 says (from memory)
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.compute.radio.blocking import StrongNeighbour, strong_neighbour
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import FittedAs
from builder.model.kinds import Receiver
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
YIELDS_TO = ("radio/links-overlap",)
_MEND = "Put the antennas further apart, or send the picture with less power."


def _one(beside: StrongNeighbour, fitted: FittedAs[Receiver]) -> Outcome:
    names = fitted.key, beside.sender.key, made(beside.distance, "m")
    if fitted.part.bears is None:
        lacks = say("the strongest signal that {} bears beside {}, {} away", *names)
        return NotJudged(lacks, fitted.shelf_where)
    if isinstance(beside.level, Unknown):
        return NotJudged(beside.level.missing[0], fitted.where)
    bears = fitted.part.bears.value
    if beside.level.value <= bears:
        return Judged()
    text = "{} gets {} of the picture from {}, {} away; it bears {}."
    told = say(text, fitted.key, beside.level, *names[1:], given(bears, "dBm"))
    see = fitted.shelf_where.at("bears")
    return Found(told, _MEND, beside.antenna.where, see=(beside.sender.where, see))


def check(case: Case) -> Iterator[Outcome]:
    links = case.results.settings.radio
    if links.video is None or links.control is None:
        return
    beside = strong_neighbour(case.build, links.video, links.control)
    for fitted in case.build.of_kind(Receiver):
        if beside is None:
            yield NotJudged("the places of the antennas of picture and control", fitted.where)
        else:
            yield _one(beside, fitted)
