"""Which field changes what: each field of the demo builds is set to another value, and the figures,
the steps and the answers of each rule are compared with those before.

A reader that is only recorded (field_readers.py) may read a field and make nothing of it; this
shows what follows. A field that changes nothing there is tried in the small builds of tests/rules and
of field_builds.yaml, each with a part that the field needs. What still changes nothing is printed,
and has to stand in builder/rules/field_register.py as words, as shown only or as structure; what each
rule answers to is written down for the field reference:

    python -m tests.benchmarks.field_effects            # prints
    python -m tests.benchmarks.field_effects --write    # writes builder/load/field_effects.json too
    python -m tests.benchmarks.field_effects Pad.takes  # what these fields change in small builds
    python -m tests.benchmarks.field_effects fit/works-loose --write   # adds what a new rule answers to

About half an hour of one core; seconds for a rule, which is asked in the cases of its own file.
"""

import dataclasses
import json
import sys
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

import yaml

import builder
from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.load.field_readers import readers
from builder.load.files import load
from builder.model.build import Build
from builder.model.read.workspace import read_workspace
from builder.model.values.base import Frozen
from builder.rules.field_register import STRUCTURE, shown_because
from builder.rules.find_rules import all_rules
from builder.rules.judge import judge
from builder.rules.rule import Case, Rule
from tests.benchmarks.field_changes import changed_builds
from tests.rules.rule_files import build_of, rule_cases

ROOT = Path(builder.__file__).parents[1]
EFFECTS = ROOT / "builder" / "load" / "field_effects.json"
_TRIES = 3  # values of one field that are tried in a build; one that changes nothing is told
_SEARCHED = 40  # values that are tried, over all small builds, of a field that changed nothing


@dataclasses.dataclass
class Effect:
    """What changing a field changed: rules by code, figures, and anything else that was computed."""

    rules: set[str] = dataclasses.field(default_factory=set)
    figures: bool = False
    steps: bool = False

    @property
    def none(self) -> bool:
        """Whether nothing followed."""
        return not (self.rules or self.figures or self.steps)


def _digest(results: object) -> tuple[dict[str, Any], list[Any]]:
    """Figures by key, and everything else that is plain, of what was computed."""
    figures: dict[str, Any] = {}
    plain: list[Any] = []
    seen: set[int] = set()

    def walk(x: object) -> None:
        if isinstance(x, str | int | float | bool | None):
            plain.append(x)
            return
        if id(x) in seen:
            return
        seen.add(id(x))
        if isinstance(x, Figure):
            figures[x.key] = (x.value, x.spread)
        elif isinstance(x, Build | Frozen):
            return
        elif isinstance(x, Mapping):
            for key, item in x.items():
                walk(key)
                walk(item)
        elif isinstance(x, tuple | list):
            for item in x:
                walk(item)
        elif dataclasses.is_dataclass(x):
            for each in dataclasses.fields(x):
                walk(getattr(x, each.name))

    walk(results)
    return figures, plain


def _said(build: Build) -> tuple[dict[str, Any], list[Any], dict[str, Any]]:
    results = compute(build)
    figures, plain = _digest(results)
    answers = {
        a.rule.code: (
            [str(f.message) for f in a.findings],
            [n.missing for n in a.not_judged],
            a.passed,
        )
        for a in judge(Case(build, results)).answers
    }
    return figures, plain, answers


def effects(builds: list[Build]) -> dict[str, Effect]:
    """What follows from each field that some build says."""
    found: defaultdict[str, Effect] = defaultdict(Effect)
    tries: Counter[tuple[str, str]] = Counter()
    for build in builds:
        before = _said(build)
        for field, made in changed_builds(build):
            effect = found[field]
            known = tries["", field] >= _TRIES and not effect.none
            if known or tries[build.name, field] >= _TRIES:
                continue
            tries[build.name, field] += 1
            tries["", field] += 1
            also = _differs(before, made)
            effect.figures |= also.figures
            effect.steps |= also.steps
            effect.rules |= also.rules
    return dict(found)


def _differs(before: Any, made: Build) -> Effect:
    """What a changed build says otherwise; nothing for a value that the reader would have refused."""
    try:
        after = _said(made)
    except Exception:  # noqa: BLE001 - another value that the reader would have refused
        return Effect()
    rules = {c for c, said in after[2].items() if before[2][c] != said}
    return Effect(rules, after[0] != before[0], after[1] != before[1])


def _likely(field: str) -> Iterator[Build]:
    """Small builds in which a field may show: those made for it, then the cases of its rules, and
    those that say it.
    """
    path = Path(__file__).parent / "field_builds.yaml"
    for case in yaml.load(path.read_text("utf-8"), yaml.CBaseLoader):
        if field in case["shows"]:
            yield build_of({k: v for k, v in case.items() if k != "shows"})
    of_it = set(readers().get(field, ()))
    families = {f"{r.partition('/')[2]}/" for r in of_it if r.startswith("rules/")}
    key = field.partition(".")[2]
    for each in rule_cases():
        its = each.rule in of_it or f"{each.rule.partition('/')[0]}/" in families
        if its or f"'{key}'" in repr(each.given):
            yield build_of(each.given)


def searched(fields: Iterable[str]) -> Iterator[tuple[str, Effect]]:
    """Fields with what they change in some small build, as soon as it is found."""
    for field in fields:
        effect, tries = Effect(), 0
        for build in _likely(field):
            others = [made for f, made in changed_builds(build) if f == field]
            before = _said(build) if others else None
            for made in others[: _SEARCHED - tries]:
                tries += 1
                effect = _differs(before, made)
                if not effect.none:
                    break
            if not effect.none or tries >= _SEARCHED:
                break
        yield field, effect


def _answer(rule: Rule, build: Build) -> object:
    (said,) = judge(Case(build, compute(build)), [rule]).answers
    return [str(f.message) for f in said.findings], said.not_judged, said.passed


def of_rule(rule: Rule) -> set[str]:
    """The fields to which a rule answers in the cases of its own file."""
    found: set[str] = set()
    for each in (c for c in rule_cases() if c.rule == rule.code):
        build, tries = build_of(each.given), Counter[str]()
        before = _answer(rule, build)
        for field, made in changed_builds(build):
            tries[field] += 1
            if field in found or tries[field] > _TRIES:
                continue
            try:
                differs = _answer(rule, made) != before
            except Exception:  # noqa: BLE001 - another value that the reader would have refused
                continue
            if differs:
                found.add(field)
    return found


def add_rules(codes: Iterable[str], *, write: bool) -> None:
    """Prints what rules answer to, and adds it to what is known of all."""
    by_code = {r.code: r for r in all_rules()}
    for code in codes:
        found = sorted(of_rule(by_code[code]))
        print(code, ", ".join(found), flush=True)
        known: dict[str, list[str]] = json.loads(EFFECTS.read_text("utf-8"))
        for field in found:
            known[field] = sorted({*known.get(field, ()), code})
        if write:
            ordered = dict(sorted(known.items()))
            EFFECTS.write_text(json.dumps(ordered, indent=0) + "\n", "utf-8")


if __name__ == "__main__":
    if codes := [a for a in sys.argv[1:] if "/" in a]:
        add_rules(codes, write="--write" in sys.argv)
        sys.exit()
    model = read_workspace(load(ROOT))
    named = [a for a in sys.argv[1:] if "." in a]
    told = {} if named else effects([model.builds[n] for n in model.builds])
    for field, effect in searched([*named, *(f for f, e in told.items() if e.none)]):
        told[field] = effect
        if effect.none:
            on_list = shown_because(field) or field in STRUCTURE
            print(field, "" if on_list else "(on no list)", flush=True)
    if "--write" in sys.argv:
        rules = {f: sorted(e.rules) for f, e in sorted(told.items()) if e.rules}
        EFFECTS.write_text(json.dumps(rules, indent=0) + "\n", "utf-8")
    kinds = Counter(
        "rule" if e.rules else "figure" if e.figures else "step" if e.steps else "none"
        for e in told.values()
    )
    print(dict(kinds))
