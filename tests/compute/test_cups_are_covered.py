"""Every cup that is soldered gets a sleeve, and it is on the wire before that: a cup that stays bare
beside the other pole is a short that waits. Read off the printed words, apart from the planner.

A sleeve for each cup: common practice, no source.
"""

import re

import pytest

from builder.compute.compute import compute
from builder.compute.order.work_order import Plan
from builder.model.build import Build
from builder.pages.told_words import told_words
from builder.pipeline.check import Checked
from tests.compute.small_workspace import one_build

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")
SHELF = """
frame: {kind: frame, name: Frame}
plug: {kind: connector, name: Plug, pads: {PLUS: {role: supply, polarity: plus}, MINUS: {role: ground, polarity: minus}}}
cap: {kind: capacitor, name: Capacitor, leads: {count: 2}, pads: {PLUS: {role: draws}, MINUS: {role: ground}}}
esc:
  kind: speed-controller
  name: Esc
  pads:
    BAT+: {role: draws, battery: yes, polarity: plus}
    BAT-: {role: ground, battery: yes, polarity: minus}
"""
LINKS = """
title: T
parts: {frame: frame, esc: esc, plug: {use: plug, count: 3}}
wires:
  - {from: plug.1.PLUS, to: esc.BAT+, colour: red, gauge: 12 AWG, length: 80 mm}
  - {from: plug.2.PLUS, to: plug.1.MINUS, colour: white, gauge: 12 AWG, length: 40 mm}
  - {from: plug.3.PLUS, to: plug.2.MINUS, colour: white, gauge: 12 AWG, length: 40 mm}
  - {from: esc.BAT-, to: plug.3.MINUS, colour: black, gauge: 12 AWG, length: 80 mm}
"""
ON_A_LEAD = """
title: T
parts: {frame: frame, esc: esc, plug: plug, cap: cap}
wires:
  - {from: cap.PLUS, to: plug.PLUS, lead: fitted, trim_to: 12 mm}
  - {from: cap.MINUS, to: plug.MINUS, lead: fitted, trim_to: 12 mm}
"""


def _plan(build: Build) -> Plan:
    plan = compute(build).order
    assert isinstance(plan, Plan)
    return plan


def _cups(build: Build) -> int:
    ends = {str(c) for r in build.wires for c in (r.start, r.end)}
    connectors = [k for k, f in build.parts.items() if f.part.KIND == "connector"]
    return sum(1 for e in ends if e.split(".")[0] in connectors)


def _sleeves(plan: Plan) -> int:
    """Sleeves that the words ask for, by how many wires are cut where they say 'each'."""
    found = 0
    for step in plan.steps:
        said = told_words(step.text)
        cut = re.match(r"Cut the (?:(\d+) wires|wire) of", said)
        wires = int((cut and cut[1]) or 1)
        for number, onto in re.findall(
            r"Slide (a|its|two) sleeves? (on[^.]*?)(?:\.| first\.)", said
        ):
            named = len(re.findall(r"\bwire from\b", said[said.index(onto) :].split(". ")[0]))
            found += {"two": 2}.get(number, 1) * (
                wires if "each" in onto.split(",")[0] else named or 1
            )
    return found


@pytest.mark.parametrize("name", DEMO)
def test_there_is_a_sleeve_for_each_cup_of_a_demo_build(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    assert isinstance(sheet.results.order, Plan)
    assert _sleeves(sheet.results.order) == _cups(sheet.build)


def test_a_wire_between_two_cups_takes_two_sleeves() -> None:
    build = one_build(SHELF, LINKS)
    assert _cups(build) == 6
    assert _sleeves(_plan(build)) == 6


def test_a_cup_with_a_fitted_lead_alone_gets_its_sleeve_too() -> None:
    build = one_build(SHELF, ON_A_LEAD)
    assert _sleeves(_plan(build)) == _cups(build) == 2


@pytest.mark.parametrize("name", DEMO)
def test_cups_are_tinned_in_one_step(demo: Checked, name: str) -> None:
    """Tinned once for all its pieces, or piece by piece; never both."""
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    shown = [told_words(g.text) for g in plan.groups]
    assert sum(1 for s in shown if s.startswith("Tin the cups")) == 1
