"""A fact that nobody gave is 'not judged', never a fault: each field of the shelf is left out in
turn.
"""

from functools import cache
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest
import yaml

from builder.compute.compute import compute
from builder.diagnostics.finding import Severity
from builder.load.files import load
from builder.model.read.workspace import read_workspace
from builder.rules.judge import Verdict, judge
from builder.rules.rule import Case
from tests.rules.altered_demo import ROOT

pytestmark = pytest.mark.slow  # takes long

FAMILIES = ("power", "fit", "pack", "bench")
BUILDS = ("curlew", "dipper")
# What a build cannot be read or wired without.
NEEDED = {"kind", "name", "pads", "sockets", "rails", "leads", "edges"}
# The rule that has to say that it lacks the field.
MISSED_BY = {
    "thread_depth": "fit/screw-too-long",
    "pattern": "fit/board-pattern-missing",
    "motor_pattern": "fit/motor-pattern-missing",
    "diameter": "fit/propeller-too-large",
    "mount": "fit/mount-unlike",
    "bore": "fit/bore-unlike-shaft",
    "hands": "fit/hands-missing",
    "shaft_below": "fit/shaft-touches-arm",
    "posts": "fit/stack-too-high",
    "camera_width": "fit/camera-width-unlike",
    "connector": "fit/pack-connector-unlike",
    "continuous": "power/connector-current",
    "cells": "power/speed-controller-cells",
    "bench": "power/speed-controller-current",
    "volts": "power/capacitor-volts",
    "discharge": "pack/discharge-limit",
    "charge": "pack/charge-rate-high",
    "capacity": "pack/watt-hours",
    "peak": "power/motor-current",
    "locking": "fit/works-loose",
}


@cache
def _shelf() -> dict[str, dict[str, Any]]:
    folder = ROOT / "builds" / "shelf"
    return {
        p.name: yaml.load(p.read_text("utf-8"), yaml.CBaseLoader)
        for p in sorted(folder.glob("*.yaml"))
    }


def _fields() -> list[tuple[str, ...]]:
    """The fields that a rule has to miss, each alone; all others by eights."""
    every = {f for parts in _shelf().values() for part in parts.values() for f in part} - NEEDED
    others = sorted(every - set(MISSED_BY))
    return [
        *((f,) for f in MISSED_BY),
        *(tuple(others[i : i + 8]) for i in range(0, len(others), 8)),
    ]


def _verdicts(folder: Path, fields: tuple[str, ...]) -> dict[str, Verdict]:
    builds = folder / "builds"
    (builds / "shelf").mkdir(parents=True)
    for name, parts in _shelf().items():
        kept = {k: {f: v for f, v in part.items() if f not in fields} for k, part in parts.items()}
        (builds / "shelf" / name).write_text(
            yaml.dump(kept, Dumper=yaml.CSafeDumper, sort_keys=False), "utf-8"
        )
    for name in BUILDS:
        copytree(ROOT / "builds" / name, builds / name)
    site = yaml.load((ROOT / "builds" / "site.yaml").read_text("utf-8"), yaml.CBaseLoader)
    site.pop("compare")
    (builds / "site.yaml").write_text(yaml.dump(site, Dumper=yaml.CSafeDumper), "utf-8")
    model = read_workspace(load(folder))
    assert set(model.builds) == set(BUILDS), [f.message for f in model.findings]
    return {name: judge(Case(b, compute(b))) for name, b in model.builds.items()}


@pytest.mark.parametrize("fields", _fields(), ids=" ".join)
def test_a_field_left_out_makes_no_fault(fields: tuple[str, ...], tmp_path: Path) -> None:
    verdicts = _verdicts(tmp_path, fields)
    faults = [
        f"{name}: {f.code}: {f.message}"
        for name, v in verdicts.items()
        for f in v.findings
        if f.severity == Severity.FAULT and f.code.split("/")[0] in FAMILIES
    ]
    assert faults == []
    missed_by = MISSED_BY.get(fields[0])
    if missed_by:
        assert any(a.rule.code == missed_by for v in verdicts.values() for a in v.not_judged)
