"""Which parts and packs of one build would fit another as they are: the rules are run on that build with each of them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from builder.compute.alternatives import swapped
from builder.compute.compute import compute
from builder.compute.results import Results
from builder.diagnostics.finding import Finding, Severity
from builder.model.build import Build
from builder.rules.find_rules import all_rules
from builder.rules.judge import RuleAnswer, Verdict, judge
from builder.rules.rule import Case

MOST = 6  # places tried for one pair; each costs one run of compute and rules
_OF_PAPERS = ("data", "law")  # these judge the aircraft that was weighed and flown, not how parts go together

_BOARD = (
    ("fit/board-pattern-missing", "hole pattern"),
    ("fit/stack-too-high", "height"),
    ("power/volts-outside-accepted", "volts"),
    ("power/speed-controller-cells", "cells"),
)
_RADIO = (("fit/antenna-connector-unlike", "antenna connector"), ("power/volts-outside-accepted", "volts"))
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
        "connector": (("fit/pack-connector-unlike", "connector"), ("power/connector-current", "current")),
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

    `lost` are joins that find no contact, `new` are findings that were not there before, `passed` is what rules of fit
    looked at and found right, `lacking` are facts that they lack.
    """

    key: str
    label: str
    lost: tuple[str, ...]
    new: tuple[Finding, ...]
    passed: tuple[str, ...] = ()
    lacking: tuple[str, ...] = ()

    @property
    def fits(self) -> bool:
        """Whether nothing speaks against it: no join is lost and no fault is new."""
        return not self.lost and all(f.severity != Severity.FAULT for f in self.new)


def _looked(kind: str, answers: tuple[RuleAnswer, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What the rules of fit for this kind found right, and the facts that they lack."""
    by = {a.rule.code: a for a in answers}
    asked = [(by[code], word) for code, word in FITS_BY.get(kind, ()) if code in by]
    passed = tuple(word for a, word in asked if a.answer == "passed")
    lacking = tuple(dict.fromkeys(n.missing for a, _ in asked for n in a.not_judged))
    return passed, lacking


def _new(kind: str, said: Verdict, before: set[tuple[str, str]]) -> tuple[Finding, ...]:
    """What was not found before, that of the rules of fit for this kind first, faults before remarks."""
    mine = {code for code, _ in FITS_BY.get(kind, ())}
    new = [f for f in said.findings if (f.code, f.message) not in before and f.code.split("/")[0] not in _OF_PAPERS]
    return tuple(sorted(new, key=lambda f: (f.severity != Severity.FAULT, f.code not in mine)))


def could_stay(a: Build, b: Build, verdict: Verdict) -> tuple[Stay, ...]:
    """Each place that both have with parts of one kind that differ, in the order of the second build's file."""
    before = {(f.code, f.message) for f in verdict.findings}
    stocked = replace(b, shelf={**a.shelf, **b.shelf})  # a build's own shelf holds only what it may use
    out: list[Stay] = []
    for key, there in b.parts.items():
        here = a.parts.get(key)
        alike = here is not None and here.shelf != there.shelf and here.part.kind == there.part.kind
        if here is None or not alike or len(out) == MOST:
            continue
        swap = swapped(stocked, key, here.shelf)
        said = judge(Case(swap.build, compute(swap.build)))
        passed, lacking = _looked(here.part.kind, said.answers)
        out.append(Stay(key, here.part.name, swap.lost, _new(here.part.kind, said, before), passed, lacking))
    return tuple(out)


def packs_could_stay(a: Build, b: Build, results: Results) -> tuple[Stay, ...]:
    """Each pack of the first build on the second one: its connector and its cells, by rules that need no computing."""
    codes = {code for code, _ in FITS_BY["pack"]}
    rules = [r for r in all_rules() if r.code in codes]
    there = {p.shelf for p in b.packs.values()}
    out = []
    for key, pack in a.packs.items():
        if pack.shelf in there:
            continue
        said = judge(Case(replace(b, packs={key: pack}), results), rules)
        passed, lacking = _looked("pack", said.answers)
        findings = tuple(f for answer in said.answers for f in answer.findings)
        out.append(Stay(f"pack {key}", pack.part.name, (), findings, passed, lacking))
    return tuple(out)
