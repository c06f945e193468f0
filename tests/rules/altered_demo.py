"""A demo build with changes made in Python, read and judged: for builds that are unusual and right."""

from collections.abc import Callable
from pathlib import Path
from shutil import copy, copytree
from typing import Any

import yaml

from builder.compute.compute import compute
from builder.load.files import load
from builder.model.read.workspace import read_workspace
from builder.rules.judge import Verdict, judge
from builder.rules.rule import Case

ROOT = Path(__file__).resolve().parents[2]
Tree = dict[str, Any]


def wire(tree: Tree, start: str, end: str) -> Tree:
    """The wire with these ends."""
    return next(w for w in tree["wires"] if (w["from"], w["to"]) == (start, end))


def case_of(folder: Path, build: str, change: Callable[[Tree], None], shelf: str = "") -> Case:
    """A demo build after a change of its file, with more on the shelf. AssertionError for a
    mistake.
    """
    builds = folder / "builds"
    copytree(ROOT / "builds" / "shelf", builds / "shelf")
    copytree(ROOT / "builds" / build, builds / build)
    copy(ROOT / "builds" / "site.yaml", builds / "site.yaml")
    site = yaml.load((builds / "site.yaml").read_text("utf-8"), yaml.BaseLoader)
    site.pop("compare", None)
    (builds / "site.yaml").write_text(yaml.safe_dump(site), "utf-8")
    (builds / "shelf" / "more.yaml").write_text(shelf, "utf-8")
    path = builds / build / "build.yaml"
    tree = yaml.load(path.read_text("utf-8"), yaml.BaseLoader)
    change(tree)
    path.write_text(yaml.safe_dump(tree, sort_keys=False), "utf-8")
    model = read_workspace(load(folder))
    assert build in model.builds, [f.message for f in model.findings]
    assert not model.findings, [f.message for f in model.findings]
    made = model.builds[build]
    return Case(made, compute(made))


def verdict_of(case: Case) -> Verdict:
    """What all rules say of it."""
    return judge(case)


def said(verdict: Verdict, *families: str) -> list[str]:
    """Findings of these families, as `code: message`; accepted ones are left out."""
    accepted = {a.finding for a in verdict.accepted}
    return [
        f"{f.code}: {f.message}"
        for f in verdict.findings
        if f.code.split("/")[0] in families and f not in accepted
    ]
