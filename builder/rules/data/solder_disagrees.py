"""Solder whose alloy, melting point and lead do not go together.

Checks: whether the alloy names lead (Pb) against `leaded`. Where the alloy is not said, the point at
which it begins to melt takes its place. Alloys of tin and lead begin at 179 to 184 °C, and no
usual one without lead does. The point at which it begins to melt is compared with that of the metals
that its alloy names.
Why: lead is a matter of health, and the temperature of the iron is taken from the melting point.
Example: Sn96.5Ag3Cu0.5 that is said to be leaded.
Mend: read the label of the reel, and correct the one that is wrong.
Source: ISO 9453, tables of alloys (from memory)
"""

import re
from collections.abc import Iterable, Iterator

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed, assumed_list
from builder.model.build import FittedAs
from builder.model.kinds import Consumable
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
_FROM, _TO = assumed_list("soldering/tin-lead-melts")
# Where alloys of these metals begin to melt, in °C: the eutectic, whatever their shares. Symbols stand
# by the alphabet.
_EUTECTICS = "Pb Sn 183, Ag Pb Sn 179, Ag Cu Sn 217, Ag Sn 221, Cu Sn 227, Bi Sn 138"
_APART = assumed("soldering/melts-apart")
_SYMBOLS = re.compile(r"[A-Z][a-z]?")
_LEAD = re.compile(r"Pb(\d+)")
_MOST_LEAD = assumed("soldering/most-lead")
_HINT = "Read the label of the reel, and correct the one that is wrong."


def _begins_to_melt(metals: Iterable[str]) -> float | None:
    """Where an alloy of these metals begins to melt, in °C; None for metals of no usual alloy."""
    for line in _EUTECTICS.split(", "):
        of, _, melts = line.rpartition(" ")
        if of.split() == sorted(set(metals)):
            return float(melts)
    return None


def _by_alloy(solder: FittedAs[Consumable], alloy: str, leaded: bool) -> Outcome:
    named = "Pb" in _SYMBOLS.findall(alloy)
    if named == leaded:
        return Judged()
    word = "leaded" if leaded else "without lead"
    names = "names" if named else "does not name"
    text = f"{solder.key} is said to be {word}, and its alloy {alloy} {names} lead."
    at = solder.shelf_where
    return clash(text, _HINT, at.at("leaded"), at.at("alloy"))


def _by_melting(solder: FittedAs[Consumable], begins: float, leaded: bool) -> Outcome:
    usual = _FROM <= begins <= _TO
    if usual == leaded:
        return Judged()
    word = "leaded" if leaded else "without lead"
    text = say(
        "{} is said to be {}, and begins to melt at {}.", solder.key, word, given(begins, "degC")
    )
    at = solder.shelf_where
    return clash(text, _HINT, at.at("leaded"), at.at("melts"))


def _by_metals(solder: FittedAs[Consumable], alloy: str, begins: float) -> Outcome | None:
    """Where it begins to melt against what its metals do; None for metals of no known alloy."""
    usual = _begins_to_melt(_SYMBOLS.findall(alloy))
    heavy = _LEAD.search(alloy)
    if usual is None or (heavy is not None and float(heavy[1]) > _MOST_LEAD):
        return None
    if abs(begins - usual) <= _APART:
        return Judged()
    text = say(
        "{} is of {}, which begins to melt at {}; {} is said.",
        solder.key,
        alloy,
        given(usual, "degC"),
        given(begins, "degC"),
    )
    at = solder.shelf_where
    return clash(text, _HINT, at.at("melts"), at.at("alloy"))


def check(case: Case) -> Iterator[Outcome]:
    for solder in case.build.of_kind(Consumable):
        alloy, melts, leaded = solder.part.alloy, solder.part.melts, solder.part.leaded
        if alloy is not None and melts is not None:
            found = _by_metals(solder, alloy, melts.low)
            yield from () if found is None else (found,)
        if leaded is None:
            continue
        if alloy is not None:
            yield _by_alloy(solder, alloy, leaded)
        elif melts is not None:
            yield _by_melting(solder, melts.low, leaded)
