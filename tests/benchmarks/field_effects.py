"""Which field changes what: each field of the demo builds is set to another value, and the figures,
the steps and the answers of each rule are compared with those before.

A reader that is only recorded (field_readers.py) may read a field and make nothing of it; this
shows what follows. Fields that change neither a figure nor an answer are printed, and what each rule
answers to is written down for the field reference:

    python -m tests.benchmarks.field_effects            # prints
    python -m tests.benchmarks.field_effects --write    # writes builder/load/field_effects.json too

About half an hour of one core.
"""

import dataclasses
import json
import sys
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

import builder
from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.load.files import load
from builder.model.build import Build
from builder.model.read.workspace import read_workspace
from builder.model.values.base import Frozen
from builder.model.values.quantities import Quantity
from builder.rules.field_register import owner_of
from builder.rules.judge import judge
from builder.rules.rule import Case
from tests.rules.rule_files import case_of, rule_cases

ROOT = Path(builder.__file__).parents[1]
EFFECTS = ROOT / "builder" / "load" / "field_effects.json"
_TRIES = 3  # values of one field that are tried in a build; one that changes nothing is told
_ITEMS = 8  # of a list or a group of named things


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


def _with(of: Any, **fields: Any) -> Any:
    """A frozen object with other fields."""
    return dataclasses.replace(of, **fields)


def _choices(annotation: Any) -> tuple[Any, ...]:
    """The values of a choice, wherever it stands in an annotation."""
    if get_origin(annotation) is Literal:
        return get_args(annotation)
    return tuple(v for a in get_args(annotation) for v in _choices(a))


def others(value: Any, annotation: Any = None) -> Iterator[Any]:
    """Other values that a field may have; none for one that is not said."""
    if isinstance(value, bool):
        yield not value
    elif isinstance(value, Quantity):
        by = (1.5, 0.6, 4.0) if value.value else ()
        yield from (_with(value, value=value.value * x) for x in by)
        if not value.value:
            yield _with(value, value=1e-3)
    elif isinstance(value, int | float):
        yield value + 1
    elif isinstance(value, str):
        choices = [c for c in _choices(annotation) if c != value]
        yield from choices or ["else"]
    elif isinstance(value, date):
        yield value + timedelta(days=400)
    elif isinstance(value, tuple) and len(value) > 0:
        yield value[:-1]
    elif isinstance(value, Mapping) and value:
        yield dict(list(value.items())[:-1])
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        for each in dataclasses.fields(value):
            for new in others(getattr(value, each.name)):
                yield _with(value, **{each.name: new})


def changed(obj: Frozen) -> Iterator[tuple[str, Frozen]]:
    """The object with one field changed, deep inside too, and which field it was."""
    for name, info in type(obj).model_fields.items():
        value, field = getattr(obj, name), owner_of(type(obj), name)
        for inner, new in _inside(value):
            yield inner, obj.model_copy(update={name: new})
        if not isinstance(value, Frozen):
            for new in others(value, info.annotation):
                yield field, obj.model_copy(update={name: new})


def _inside(value: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(value, Frozen):
        yield from changed(value)
    elif isinstance(value, tuple):
        for i, item in enumerate(value[:_ITEMS]):
            for field, new in _inside(item):
                yield field, (*value[:i], new, *value[i + 1 :])
    elif isinstance(value, Mapping):
        for key, item in list(value.items())[:_ITEMS]:
            for field, new in _inside(item):
                yield field, {**value, key: new}


def _in_build(build: Build) -> Iterator[tuple[str, Build]]:
    for key, fitted in build.parts.items():
        for field, part in changed(fitted.part):
            new = _with(fitted, part=part)
            yield field, _with(build, parts={**build.parts, key: new})
        for field, use in changed(fitted.use):
            new = _with(fitted, use=use)
            yield field, _with(build, parts={**build.parts, key: new})
    for key, pack in build.packs.items():
        for name in ("part", "use"):
            for field, made in changed(getattr(pack, name)):
                new_pack = _with(pack, **{name: made})
                yield field, _with(build, packs={**build.packs, key: new_pack})
    for group, name in (("wires", "wire"), ("plugs", "plug"), ("screws", "screw")):
        lines = getattr(build, group)
        for i, line in enumerate(lines):
            for field, made in changed(getattr(line, name)):
                new_line = _with(line, **{name: made})
                both = (*lines[:i], new_line, *lines[i + 1 :])
                yield field, _with(build, **{group: both})
    for name in ("source", "site"):
        for field, made in changed(getattr(build, name)):
            yield field, _with(build, **{name: made})


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
        for field, made in _in_build(build):
            effect = found[field]
            known = tries["", field] >= _TRIES and not effect.none
            if known or tries[build.name, field] >= _TRIES:
                continue
            tries[build.name, field] += 1
            tries["", field] += 1
            try:
                after = _said(made)
            except Exception:  # noqa: BLE001 - another value that the reader would have refused
                continue
            effect.figures |= after[0] != before[0]
            effect.steps |= after[1] != before[1]
            effect.rules |= {c for c, said in after[2].items() if before[2][c] != said}
    return dict(found)


if __name__ == "__main__":
    model = read_workspace(load(ROOT))
    small = {c.rule: c for c in rule_cases()}
    made_up = [case_of(c.given).build for c in small.values()] if "--all" in sys.argv else []
    told = effects([*(model.builds[n] for n in model.builds), *made_up])
    for field in sorted(f for f, e in told.items() if e.none):
        print(field)
    if "--write" in sys.argv:
        rules = {f: sorted(e.rules) for f, e in sorted(told.items()) if e.rules}
        EFFECTS.write_text(json.dumps(rules, indent=0) + "\n", "utf-8")
    kinds = Counter(
        "rule" if e.rules else "figure" if e.figures else "step" if e.steps else "none"
        for e in told.values()
    )
    print(dict(kinds))
