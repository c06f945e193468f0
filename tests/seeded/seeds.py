"""Seeded faults as data: one change of a clean demo build, the rule that has to find it, and
nothing else found.

A case in cases/<family>.yaml, as a person writes it:

    - it: The receiver's sending lead sits on the board's sending pad.
      in: [dipper, redshank]                       # one case a build
      wire: receiver.TX to controller.RX1          # the line to change, by its ends
      becomes: {to: controller.TX1}                # keys to set; a key with the value `none` is
          taken out
      finds: wiring/tx-to-tx
      and: [wiring/pad-overfull]                   # what cannot be told apart from it

In place of `wire:` a case may say `plug:` (by its ends), `swap:` (two wires that change their far
ends), `add:` (a wire), `take:` (a wire that is taken out), or `set:` with a path in `file:` and
`to:` (`none` takes the key out). `edits:` is a list of such changes of one file, where one mistake
needs several. `file:` is build.yaml of the build unless it is named:
`shelf/boards.yaml`, `site.yaml`.
"""

from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
import yaml

from builder.compute.compute import compute
from builder.diagnostics.finding import Severity
from builder.load.files import Loaded, load
from builder.model.read.workspace import read_workspace
from builder.rules.judge import Verdict, judge
from builder.rules.rule import Case

ROOT = Path(__file__).resolve().parents[2]
CASES = Path(__file__).parent / "cases"
# For the table at the end: rule, whether it found the seed, findings that had nothing to do with
# it.
SCORES = pytest.StashKey[list[tuple[str, bool, int]]]()


@dataclass(frozen=True)
class Seed:
    """One change in one build."""

    title: str
    build: str
    change: Mapping[str, Any]
    finds: str
    companions: frozenset[str]

    @property
    def name(self) -> str:
        """How pytest names it."""
        return f"{self.finds}-{self.build}-{self.title}"


@dataclass(frozen=True)
class Caught:
    """What the rules said after the change and not before it: codes of faults and remarks."""

    codes: frozenset[str]
    mistakes: tuple[str, ...]


def seeds() -> tuple[Seed, ...]:
    """Every case of every file, one for each build that it names."""
    out: list[Seed] = []
    for path in sorted(CASES.glob("*.yaml")):
        for case in yaml.load(path.read_text("utf-8"), yaml.CBaseLoader) or []:
            builds = [case["in"]] if isinstance(case["in"], str) else case["in"]
            also = case.get("and", [])
            companions = frozenset([also] if isinstance(also, str) else also)
            change = {k: v for k, v in case.items() if k not in ("it", "in", "finds", "and")}
            if "take" in change:  # the scale, too, may notice that something is no longer listed
                companions |= {"data/sum-and-scale-disagree"}
            out += [Seed(case["it"], b, change, case["finds"], companions) for b in builds]
    return tuple(out)


def _ends(text: str) -> tuple[str, str]:
    a, _, b = text.partition(" to ")
    return a.strip(), b.strip()


def _line(tree: dict[str, Any], group: str, ends: str) -> dict[str, Any]:
    """The wire or plug with these ends. AssertionError if the build does not have it, or has it
    twice.
    """
    wanted = _ends(ends)
    found: list[dict[str, Any]] = [w for w in tree.get(group, []) if (w["from"], w["to"]) == wanted]
    assert len(found) == 1, f"{len(found)} {group} {ends!r}"
    return found[0]


def _put(tree: Any, steps: list[str], value: Any) -> None:
    """Set, or take out, what keys lead to; a step that is a number counts in a list from 1."""
    *inner, last = steps
    for step in inner:
        tree = tree[int(step) - 1] if isinstance(tree, list) else tree.setdefault(step, {})
    key: Any = int(last) - 1 if isinstance(tree, list) else last
    if value == "none":
        del tree[key]
    elif isinstance(tree, list) and key == len(tree):
        tree.append(value)
    else:
        assert not isinstance(tree, dict) or tree.get(key) != value, f"{steps} is {value!r} already"
        tree[key] = value


def changed(source: Mapping[str, Any], change: Mapping[str, Any]) -> dict[str, Any]:
    """A copy of a file's tree with the one change made."""
    tree: dict[str, Any] = deepcopy(dict(source))
    for each in change.get("edits", ()):
        tree = changed(tree, each)
    if "edits" in change:
        return tree
    if "wire" in change or "plug" in change:
        group = "wires" if "wire" in change else "plugs"
        line = _line(tree, group, change.get("wire") or change["plug"])
        for key, value in change["becomes"].items():
            _put(line, [key], value)
    elif "swap" in change:
        a, b = (_line(tree, "wires", ends) for ends in change["swap"])
        a["to"], b["to"] = b["to"], a["to"]
    elif "take" in change:
        group = "plugs" if change.get("group") == "plugs" else "wires"
        tree[group].remove(_line(tree, group, change["take"]))
    elif "add" in change:
        tree["wires"].append(change["add"])
    else:
        _put(tree, change["set"].split("/"), change["to"])
    return tree


@cache
def _demo() -> Loaded:
    """The demo's files, so that those that a seed leaves as they are need no parsing again."""
    return load(ROOT)


def _case(folder: Path, build: str) -> tuple[Case | None, tuple[str, ...]]:
    model = read_workspace(load(folder, before=_demo()))
    mistakes = tuple(f.message for f in model.findings)
    made = model.builds.get(build)
    return (Case(made, compute(made)) if made is not None else None), mistakes


def _rules_say(folder: Path, build: str) -> tuple[Verdict | None, tuple[str, ...]]:
    case, mistakes = _case(folder, build)
    return (judge(case) if case is not None else None), mistakes


def verdict_of(build: str) -> Verdict:
    """What the rules say of a demo build as it stands."""
    verdict, mistakes = _rules_say(ROOT, build)
    assert verdict is not None and not mistakes, mistakes
    return verdict


def _codes(verdict: Verdict) -> Iterator[str]:
    yield from (f.code for f in verdict.faults)
    yield from (f.code for f in verdict.findings if f.severity != Severity.FAULT)


@cache
def _source(file: str) -> dict[str, Any]:
    """A file of the demo workspace as plain text values; copied before it is changed."""
    tree: dict[str, Any] = yaml.load((ROOT / "builds" / file).read_text("utf-8"), yaml.CBaseLoader)
    return tree


def _write(path: Path, tree: Mapping[str, Any]) -> None:
    text = yaml.dump(
        dict(tree), Dumper=yaml.CSafeDumper, sort_keys=False, allow_unicode=True, width=10_000
    )
    path.write_text(text, "utf-8")


def _write_seed(seed: Seed, folder: Path) -> None:
    """The build with the seed's change, in a copy of what it needs."""
    builds = folder / "builds"
    copytree(ROOT / "builds" / "shelf", builds / "shelf")
    site = {
        k: v for k, v in _source("site.yaml").items() if k != "compare"
    }  # builds that were not copied
    _write(builds / "site.yaml", site)
    base = _source(f"{seed.build}/build.yaml").get("based_on")
    for name in (seed.build, *([base] if base else [])):
        copytree(ROOT / "builds" / name, builds / name)
    file = seed.change.get("file", f"{seed.build}/build.yaml")
    _write(builds / file, changed(site if file == "site.yaml" else _source(file), seed.change))


def case_with(seed: Seed, folder: Path) -> Case | None:
    """The build with the seed's change, computed; None where it cannot be read."""
    _write_seed(seed, folder)
    return _case(folder, seed.build)[0]


def judged_with(seed: Seed, folder: Path, clean: Verdict) -> Caught:
    """The build read and judged with the seed's change, against the clean one."""
    _write_seed(seed, folder)
    verdict, mistakes = _rules_say(folder, seed.build)
    if verdict is None:
        return Caught(frozenset(), mistakes)
    # What the clean build has already is not news.
    return Caught(frozenset(set(_codes(verdict)) - set(_codes(clean))), mistakes)
