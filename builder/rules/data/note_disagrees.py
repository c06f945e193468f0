"""A note that says something else than the figure beside it.

Checks: figures with a unit in notes (but for those of logs), and closed words behind the name of their key. They
are compared with the figures and words of the same thing: cells, gauge, charge, speed constant; `length 70 mm` by
its key; `props out`, `cable reversed`. Other words are read by no check. Where a figure of another kind has no like
beside it, or the note says 'never' or 'than', it could not be checked.
Why: who follows the note builds something else than what the sheet was checked for.
Example: a wire of 18 AWG with the note 'take 22 AWG'.
Mend: correct the one that is a slip; a rule of use has a key of its own.
Source: the two statements themselves
"""

import re
from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.compare import alike
from builder.rules.data._noted import Noted, NotedFigure, choices, figures_in, figures_of, noted
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK
YIELDS_TO = ("setup/props-disagree",)
_SURE = ("cells", "gauge", "charge", "speed constant")  # of which a thing has one
# A note with one of these may name a figure because it is another.
_TURNS = re.compile(
    r"\b(?:no|not|never|none|without|instead|than|unlike|like|was|were|before|former(?:ly)?|if|or|other|another|old|too)\b"
)
_OF_ANYTHING = "share"
_HINT = "Correct the one that is a slip."


def _within(one: NotedFigure, other: NotedFigure) -> bool:
    inside = other.low <= one.low <= other.high
    return inside or alike(one.low, other.low) or alike(one.low, other.high)


def _figures(line: Noted) -> Iterator[Outcome]:
    said = figures_in(line.note)
    beside = [(name, s) for name, value, _ in line.facts for s in figures_of(value)]
    for kind in dict.fromkeys(s.measures for s in said):
        there = [(name, s) for name, s in beside if s.measures == kind]
        here = [s for s in said if s.measures == kind]
        if not there or kind == _OF_ANYTHING:
            continue
        if any(_within(s, other) for s in here for _, other in there):
            yield Judged()
        elif kind in _SURE and not _TURNS.search(line.note.casefold()):
            text = f"The note says {here[0].words}, and {there[0][0]} says another."
            yield Found(text, _HINT, line.where)
        else:
            yield NotJudged(
                f"whether {here[0].words} in a note agrees with {there[0][0]}", line.where
            )


def _by_key(line: Noted) -> Iterator[Outcome]:
    """A figure right behind the name of its key."""
    for name, value, _ in line.facts:
        spelled = re.escape(name).replace("_", "[_ ]")
        behind = re.search(rf"\b{spelled}\s+(?:is\s+|of\s+|to\s+)?(\d.*)", line.note, re.IGNORECASE)
        said = figures_in(behind[1])[:1] if behind is not None else ()
        there = [s for s in figures_of(value) if said and s.measures == said[0].measures]
        if not there or said[0].measures in _SURE:
            continue
        if any(_within(said[0], other) for other in there):
            yield Judged()
        elif _TURNS.search(line.note.casefold()):
            yield NotJudged(f"whether {said[0].words} in a note agrees with {name}", line.where)
        else:
            text = f"The note says {name} {said[0].words}, and {name} says another."
            yield Found(text, _HINT, line.where)


def _words(line: Noted) -> Iterator[Outcome]:
    note = line.note.casefold()
    for name, value, cls in line.facts:
        words = choices(cls, name)
        named = [w for w in words if re.search(rf"\b{name}\s+{re.escape(w)}\b", note)]
        if not named:
            continue
        if value in named:
            yield Judged()
        elif _TURNS.search(note):
            yield NotJudged(f"whether '{name} {named[0]}' in a note is meant", line.where)
        else:
            yield Found(f"The note says '{name} {named[0]}'; {name} is {value}.", _HINT, line.where)


def check(case: Case) -> Iterator[Outcome]:
    for line in noted(case.build):
        yield from _figures(line)
        yield from _by_key(line)
        yield from _words(line)
