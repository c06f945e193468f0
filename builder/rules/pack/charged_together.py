"""Batteries that must not be charged on one board.

Checks: batteries that are charged at once in parallel (`charging` with `together` or `beside`). They have one
chemistry, as many cells and the same full volts. Before they are joined their volts differ by 0.05 V a cell at most.
Batteries that fly in series are unplugged from each other first (`apart`). The board takes as many batteries,
and all of the charging current.
Why: unlike batteries charge each other without any limit. Two that are still joined in series are shorted through
their balance leads on the board.
Example: both batteries of a pair in series on one board, still plugged into the aircraft.
Mend: charge each by itself, or take them apart, measure each, and join only those that are alike.
Source: common practice, no source; Kirchhoff's laws
"""

from collections.abc import Iterator

from builder.compute.loops.matching import SIDE_BY_SIDE
from builder.compute.loops.unlike import unlike_words
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.model.build import Fitted, FittedPack
from builder.model.kinds import GroundGear
from builder.model.source.build_source import Charging
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_MEND = "Do not join them. Charge each by itself."
_TAKE_APART = "Unplug each from the aircraft and from the others, before it goes on the board."
_EXACT = 1.0 + 1e-9


def _alike(case: Case, pack: FittedPack, said: Charging, at: Where) -> Iterator[Outcome]:
    for i, name in enumerate(said.beside):
        other = case.build.packs[name]
        apart = list(unlike_words(pack.part, other.part, side_by_side=True))
        words = [w for w in dict.fromkeys(apart) if w is not None]
        if words:
            text = f"Batteries {pack.key} and {name} are charged on one board: {', '.join(words)}."
            yield Found(text, _MEND, at.at("beside", i), see=(other.shelf_where,))
        elif None in apart:
            yield NotJudged(f"cells and chemistry of {pack.key} and {name}", at)
        else:
            yield Judged()


def _volts(pack: FittedPack, said: Charging, at: Where) -> Outcome:
    read = [v.value for v in said.each_volts]
    if not read:
        return NotJudged(f"volts of each battery of {pack.key} before it goes on the board", at)
    if pack.part.cells is None:
        return NotJudged(f"cells of battery {pack.key}", pack.shelf_where)
    if max(read) - min(read) <= SIDE_BY_SIDE * pack.part.cells.low * _EXACT:
        return Judged()
    low, high = given(min(read), "V"), given(max(read), "V")
    text = say("Batteries of {} go on one board with {} and {}.", pack.key, low, high)
    return Found(text, _MEND, at.at("each_volts"))


def _apart(pack: FittedPack, said: Charging, at: Where) -> Outcome | None:
    """Whether batteries in series are taken apart; None where none are."""
    if pack.use.series == 1 or said.together == 1:
        return None
    if said.apart:
        return Judged()
    if said.apart is None:
        return NotJudged(f"whether the batteries of {pack.key} are unplugged from each other", at)
    text = f"The batteries of {pack.key} are still in series on the board: it shorts one of them."
    return Found(text, _TAKE_APART, at.at("apart"))


def _board(case: Case, pack: FittedPack, said: Charging, at: Where) -> Iterator[Outcome]:
    board: Fitted | None = case.build.parts.get(said.board or "")
    part = board.part if board is not None else None
    if board is None or not isinstance(part, GroundGear):
        yield NotJudged(f"the board on which {pack.key} is charged", at)
        return
    many = said.together + len(said.beside)
    if part.joins is None:
        yield NotJudged(f"how many batteries {board.key} joins", board.shelf_where)
    elif many > part.joins:
        text = f"{many} batteries are charged on {board.key}, which joins {part.joins}."
        yield Found(text, "Charge fewer at once.", at)
    else:
        yield Judged()
    if part.charge_current is None or said.current is None:
        yield NotJudged(f"charging current of {pack.key} and of {board.key}", at)
    elif said.current.value > part.charge_current.value * _EXACT:
        text_of = "{} are charged with {} through {}, which is made for {}."
        amperes = given(said.current.value, "A"), given(part.charge_current.value, "A")
        told = say(text_of, f"Batteries of {pack.key}", amperes[0], board.key, amperes[1])
        yield Found(told, "Charge fewer at once, or with less.", at.at("current"))
    else:
        yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    for pack in case.build.packs.values():
        said, at = pack.use.charging, pack.where.at("charging")
        if said is None or said.together + len(said.beside) < 2:
            continue
        yield from _alike(case, pack, said, at)
        yield _volts(pack, said, at)
        apart = _apart(pack, said, at)
        yield from () if apart is None else (apart,)
        yield from _board(case, pack, said, at)
