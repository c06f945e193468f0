"""Tests of rules as files that anybody can read: a title, what is wired, what the rule says.

tests/rules/<family>/<rule>.yaml is a list of cases:

    - title: Both ends send.
      wires: [receiver.TX to board.TX1]       # `a to b`, or a group as in build.yaml
      expect: found                           # found, passed, not judged, nothing to judge
      says: Both of these send                # a piece of the finding, or of the fact that is
          missing
      hints: Cross the two leads              # a piece of what to do

Parts are taken from small_shelf.yaml by the names that stand in the wires and plugs; `parts` says
more of them (count, place), `shelf` changes entries, `build` holds anything else of build.yaml,
`site` what site.yaml says.
"""

from collections.abc import Mapping
from copy import deepcopy
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from builder.compute.compute import compute
from builder.model.build import Build
from builder.rules.find_rules import all_rules
from builder.rules.judge import RuleAnswer, Verdict, judge
from builder.rules.rule import Case
from tests.compute.small_workspace import one_build

HERE = Path(__file__).parent


@dataclass(frozen=True)
class RuleCase:
    """One case of a rule's file."""

    rule: str
    title: str
    given: Mapping[str, Any]
    expect: str
    says: str
    hints: str

    @property
    def name(self) -> str:
        """How pytest names it."""
        return f"{self.rule}: {self.title}"


def read(path: Path) -> Any:
    """A YAML file with every value as text, as the project reads it."""
    return yaml.load(path.read_text("utf-8"), yaml.CBaseLoader)


def rule_cases() -> tuple[RuleCase, ...]:
    """Every case of every rule's file."""
    out = []
    for path in sorted(HERE.glob("*/*.yaml")):
        for case in read(path):
            given = {k: v for k, v in case.items() if k not in ("title", "expect", "says", "hints")}
            rule = f"{path.parent.name}/{path.stem}"
            out.append(
                RuleCase(
                    rule,
                    case["title"],
                    given,
                    case["expect"],
                    case.get("says", ""),
                    case.get("hints", ""),
                )
            )
    return tuple(out)


def _deeper(under: dict[str, Any], over: Mapping[str, Any]) -> dict[str, Any]:
    """`over` laid on `under`, group by group; `none` takes a key out."""
    for key, value in over.items():
        if value == "none":
            under.pop(key, None)
        elif isinstance(value, Mapping) and isinstance(under.get(key), dict):
            _deeper(under[key], value)
        else:
            under[key] = value
    return under


def _line(line: Any) -> dict[str, Any]:
    if isinstance(line, dict):
        return line
    start, _, end = line.partition(" to ")
    return {"from": start, "to": end, "length": "200 mm"}


def _build(given: Mapping[str, Any]) -> dict[str, Any]:
    wires = [_line(w) for w in given.get("wires", [])]
    plugs = [{k: v for k, v in _line(p).items() if k != "length"} for p in given.get("plugs", [])]
    parts: dict[str, Any] = {}
    for end in (e for line in wires + plugs for e in (line["from"], line["to"])):
        names = end.split(".")
        entry = parts.setdefault(names[0], {"use": names[0]})
        if len(names) == 3:
            entry["count"] = str(max(int(entry.get("count", "2")), int(names[1])))
    for key, more in given.get("parts", {}).items():
        _deeper(parts.setdefault(key, {"use": key}), more)
    return {
        "title": "Test",
        "parts": parts,
        "wires": wires,
        "plugs": plugs,
        **given.get("build", {}),
    }


@cache
def _small_shelf() -> Any:
    return read(HERE / "small_shelf.yaml")


def _text(tree: Any) -> str:
    return yaml.dump(tree, Dumper=yaml.CSafeDumper)


@cache
def _entry_text(name: str) -> str:
    return _text({name: _small_shelf()[name]})


def _shelf(changes: Mapping[str, Any], build: str) -> str:
    """The shelf as a build of this text needs it: the entries that a case changes or adds, those
    whose names the text holds, and those that these name in turn.
    """
    entries = dict.fromkeys(changes, "")
    for name, change in changes.items():
        before = deepcopy(_small_shelf().get(name, {}))
        entries[name] = "" if change == "none" else _text({name: _deeper(before, change)})
    todo = [build, *entries.values()]
    while todo:
        text = todo.pop()
        named = [n for n in _small_shelf() if n in text and n not in entries]
        entries |= {n: _entry_text(n) for n in named}
        todo += [entries[n] for n in named]
    return "".join(entries.values())


def build_of(given: Mapping[str, Any]) -> Build:
    """A case read. AssertionError where the data cannot be read."""
    site, build = _text({"title": "Test", **given.get("site", {})}), _text(_build(given))
    return one_build(_shelf(given.get("shelf", {}), build), build, site)


def case_of(given: Mapping[str, Any]) -> Case:
    """A case read and computed. AssertionError where the data cannot be read."""
    build = build_of(given)
    return Case(build, compute(build))


def judged(given: Mapping[str, Any], rule: str | None = None) -> Verdict:
    """What one rule, or all of them, say of a case. AssertionError where the data cannot be read."""
    rules = None if rule is None else [r for r in all_rules() if r.code == rule]
    return judge(case_of(given), rules)


def answer(case: RuleCase) -> RuleAnswer:
    """What the case's own rule says."""
    (only,) = judged(case.given, case.rule).answers
    return only
