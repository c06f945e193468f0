"""A battery that is past its usual life.

Checks: the charges of each battery against 300 (500 of lithium-ion cells), and its years, counted
from `as_of`, against five.
Why: an old battery gives less than its label says, sags at full throttle and swells. It is the one
that burns while it is charged.
Example: a lithium-polymer battery with 900 charges.
Mend: look at it and measure each cell; discharge one that is swollen, and take it to a collection
point.
Source: cell data sheets: 80 % of the charge after 300 to 500 cycles (from memory); years: common
practice, no source
"""

from collections.abc import Iterator

from builder.compute.flight.ageing import age_of
from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.model.build import Build, FittedPack
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
SIGNAL = Signal.CAUTION
OF_ONE_COPY = True
_POLYMER = assumed("battery/worn-polymer")
_ION = assumed("battery/worn-ion")
_OLD = assumed("battery/old")
_YEAR = assumed("battery/year")
_HINT = "Measure each cell, and charge it under watch. Do not fly it if it is swollen."


def _one(build: Build, pack: FittedPack) -> Iterator[Outcome]:
    part, age, at = pack.part, age_of(build, pack), pack.shelf_where
    most = _ION if part.chemistry == "lithium-ion" else _POLYMER
    if part.cycles is not None and part.cycles > most:
        told = "Battery {} was charged {} times; it is made for about {}."
        text = say(told, pack.key, part.cycles, given(most, "1"))
        yield Found(text, _HINT, at.at("cycles"))
    elif part.cycles is not None:
        yield Judged()
    if part.bought is None or age is None:
        return
    if build.site.as_of is None and build.source.revised is None:
        yield NotJudged("as_of in site.yaml: the day from which ages count", at.at("bought"))
    elif age.years * _YEAR > _OLD:
        whole = given(int(age.years) * _YEAR, "s", shown_as=("years", 1.0 / _YEAR, 0))
        text = say("Battery {} was bought {} ago.", pack.key, whole)
        yield Found(text, _HINT, at.at("bought"))
    else:
        yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    for pack in case.build.packs.values():
        yield from _one(case.build, pack)
