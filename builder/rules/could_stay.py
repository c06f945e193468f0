"""Which parts and batteries of one build would fit another as they are: the rules are run on that build
with each of them.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from builder.compute.compare.alternatives import swapped, with_pack
from builder.diagnostics.finding import Finding, Severity
from builder.model.build import Build
from builder.rules.judge import RuleAnswer, Verdict
from builder.rules.judge_swap import judge_swap
from builder.rules.swap_facts import (
    OF_PAPERS,
    Fits,
    answer_of,
    facts_lacking,
    is_blind_cable,
    unfed,
    unwired,
)

MOST = 6  # places tried for one pair; each is computed and judged

_BOARD = (
    ("fit/board-pattern-missing", "hole pattern"),
    ("fit/stack-too-high", "height"),
    ("power/volts-outside-accepted", "volts"),
    ("power/speed-controller-cells", "cells"),
)
_RADIO = (
    ("fit/antenna-connector-unlike", "antenna connector"),
    ("power/volts-outside-accepted", "volts"),
)
# What decides whether a part of a kind goes in: the rule, and what it looks at in a word.
FITS_BY: Mapping[str, tuple[tuple[str, str], ...]] = MappingProxyType(
    {
        "frame": (
            ("fit/motor-pattern-missing", "hole pattern of the motors"),
            ("fit/board-pattern-missing", "hole pattern of the boards"),
            ("fit/propeller-too-large", "discs"),
            ("fit/camera-width-unlike", "camera width"),
        ),
        "motor": (
            ("fit/motor-pattern-missing", "hole pattern"),
            ("fit/bore-unlike-shaft", "shaft"),
            ("fit/mount-unlike", "propeller mount"),
            ("power/motor-cells", "cells"),
        ),
        "propeller": (
            ("fit/bore-unlike-shaft", "bore"),
            ("fit/mount-unlike", "mount"),
            ("fit/propeller-too-large", "disc"),
        ),
        "speed-controller": _BOARD,
        "flight-controller": _BOARD,
        "combined-board": _BOARD,
        "camera": (("fit/camera-width-unlike", "width"), ("power/volts-outside-accepted", "volts")),
        "video-transmitter": _RADIO,
        "receiver": _RADIO,
        "antenna": (("fit/antenna-connector-unlike", "connector"),),
        "connector": (
            ("fit/pack-connector-unlike", "connector"),
            ("power/connector-current", "current"),
        ),
        "capacitor": (("power/capacitor-volts", "volts"),),
        "pack": (
            ("fit/pack-connector-unlike", "connector"),
            ("power/motor-cells", "cells of the motors"),
            ("power/speed-controller-cells", "cells of the speed controller"),
        ),
    }
)


@dataclass(frozen=True, eq=False)
class Stay:
    """One place of the second build with the first build's part in it.

    `lost` are joins that find no contact and contacts that nothing feeds, `new` are findings that
    were not there before, `passed` is what rules of fit looked at and found right, `lacking` are
    facts that a rule lacks with it.
    """

    key: str
    label: str
    lost: tuple[str, ...]
    new: tuple[Finding, ...]
    passed: tuple[str, ...] = ()
    lacking: tuple[str, ...] = ()

    @property
    def answer(self) -> Fits:
        """No: a join is lost or a fault is new. Not known: a rule lacks a fact, or none looked at
        how it fits.
        """
        against = bool(self.lost) or any(f.severity == Severity.FAULT for f in self.new)
        unseen = () if self.passed else ("no rule looks at how it fits there",)
        return answer_of(against, (*self.lacking, *unseen))

    @property
    def fits(self) -> bool:
        """Whether the answer is yes: nothing speaks against it, and nothing is unknown."""
        return self.answer == "yes"


def _looked(kind: str, answers: tuple[RuleAnswer, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What the rules of fit for this kind found right, and the facts that they lack."""
    by = {a.rule.code: a for a in answers}
    asked = [(by[code], word) for code, word in FITS_BY.get(kind, ()) if code in by]
    passed = tuple(word for a, word in asked if a.answer == "passed")
    lacking = tuple(dict.fromkeys(n.missing for a, _ in asked for n in a.not_judged))
    return passed, lacking


def _new(kind: str, said: Verdict, before: set[tuple[str, str]]) -> tuple[Finding, ...]:
    """What was not found before, that of the rules of fit for this kind first, faults before
    remarks.
    """
    mine = {code for code, _ in FITS_BY.get(kind, ())}
    new = [
        f
        for f in said.findings
        if (f.code, f.message) not in before and f.code.split("/")[0] not in OF_PAPERS
    ]
    return tuple(sorted(new, key=lambda f: (f.severity != Severity.FAULT, f.code not in mine)))


def could_stay(a: Build, b: Build, verdict: Verdict) -> tuple[Stay, ...]:
    """Each place that both have with parts of one kind that differ, in the order of the second
    build's file.
    """
    before = {(f.code, f.message) for f in verdict.findings}
    stocked = replace(
        b, shelf={**a.shelf, **b.shelf}
    )  # a build's own shelf holds only what it may use
    out: list[Stay] = []
    for key, there in b.parts.items():
        here = a.parts.get(key)
        alike = here is not None and here.shelf != there.shelf and here.part.kind == there.part.kind
        if here is None or not alike or len(out) == MOST:
            continue
        swap = swapped(stocked, key, here.shelf)
        said = judge_swap(swap.build)[1]
        passed, lacking = _looked(here.part.kind, said.answers)
        lacking += (*facts_lacking(verdict, said, key, here.shelf), *unwired(swap.build, key, a))
        lost = (*swap.lost, *unfed(swap.build, key))
        new = () if is_blind_cable(swap.build, key) else _new(here.part.kind, said, before)
        out.append(Stay(key, here.part.name, lost, new, passed, tuple(dict.fromkeys(lacking))))
    return tuple(out)


def _set_for_others(chemistry: str | None, made_for: frozenset[str | None]) -> str:
    """That landing volts and alarms are set for other cells: what lands one kind at 3.0 V a cell
    harms another.
    """
    names = ", ".join(sorted(c or "cells not named" for c in made_for)) or "no battery"
    return (
        f"landing volts and alarms for {chemistry or 'cells not named'}: they are set for {names}"
    )


def packs_could_stay(a: Build, b: Build, verdict: Verdict) -> tuple[Stay, ...]:
    """Each pack of the first build on the second one, by every rule: its connector, its cells, what
    it is asked for.
    """
    before = {(f.code, f.message) for f in verdict.findings}
    there = {p.shelf for p in b.packs.values()}
    made_for: frozenset[str | None] = frozenset(p.part.chemistry for p in b.packs.values())
    out: list[Stay] = []
    for key, pack in a.packs.items():
        if pack.shelf in there or len(out) == MOST:
            continue
        flown = with_pack(b, pack)
        said = judge_swap(flown)[1]
        passed, lacking = _looked("pack", said.answers)
        lacking += facts_lacking(verdict, said, key, pack.shelf)
        if pack.part.chemistry is None or made_for != {pack.part.chemistry}:
            lacking += (_set_for_others(pack.part.chemistry, made_for),)
        new = _new("pack", said, before)
        out.append(
            Stay(f"battery {key}", pack.part.name, (), new, passed, tuple(dict.fromkeys(lacking)))
        )
    return tuple(out)


def stays(a: Build, b: Build, verdict: Verdict) -> tuple[Stay, ...]:
    """Parts, then packs of the first build that were tried on the second, whose verdict is given."""
    return (*could_stay(a, b, verdict), *packs_could_stay(a, b, verdict))
