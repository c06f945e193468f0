"""Every part that flies is fitted, joined, plugged or carried by a step, and no step is about what
is not there. Written apart from the planner: it reads the printed words. Common practice, no source.
"""

import re

import pytest
from hypothesis import given, settings

from builder.compute.compute import compute
from builder.compute.order.work_order import Plan
from builder.model.build import Build
from builder.pages.told_words import told_words
from builder.pipeline.check import Checked
from tests.compute.made_up_builds import CHOICES, Choice, build_of
from tests.compute.power_walk import Line, Stop, walk

pytestmark = pytest.mark.slow  # takes long

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")
GROUND = ("tool", "consumable", "ground-gear")


def _said(plan: Plan) -> str:
    """All words of the steps, with the contacts of their joints."""
    rows = []
    for group in plan.groups:
        rows.append(told_words(group.text))
        for step in group.steps:
            rows += [told_words(step.text), step.id, step.part]
    return " ".join(rows)


def _missing(build: Build, plan: Plan) -> list[str]:
    said = _said(plan)
    own = {(s.part or "").split(".")[0] for s in build.source.steps}
    out = []
    for f in build.parts.values():
        if f.part.KIND in (*GROUND, "frame", "payload") or f.key in own:
            continue
        named = re.search(rf"(?<![\w-]){re.escape(f.key)}(?![\w-])", said) or f.part.name in said
        by_kind = {"propeller": "propellers", "cable": "harness"}.get(f.part.KIND, "")
        sleeve = getattr(f.part, "form", "") == "sleeve" and "sleeve of" in said
        if not named and not sleeve and not (by_kind and by_kind in said):
            out.append(f.key)
    return out


def _plan(build: Build) -> Plan:
    plan = compute(build).order
    assert isinstance(plan, Plan)
    return plan


@pytest.mark.parametrize("name", DEMO)
def test_every_part_of_a_demo_build_is_named_by_a_step(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    assert isinstance(sheet.results.order, Plan)
    assert _missing(sheet.build, sheet.results.order) == []


@settings(max_examples=25, deadline=None)
@given(CHOICES)
def test_every_part_of_a_made_up_build_is_named_by_a_step(choice: Choice) -> None:
    build = build_of(choice)
    assert _missing(build, _plan(build)) == []


@settings(max_examples=25, deadline=None)
@given(CHOICES)
def test_no_step_is_about_what_is_not_there(choice: Choice) -> None:
    build = build_of(choice)
    kinds = {f.part.KIND for f in build.parts.values()}
    said = _said(_plan(build)).casefold()
    assert ("capacitor" in said) == ("capacitor" in kinds)
    assert "strap" not in said
    assert ("bind" in said) == ("receiver" in kinds)
    assert ("antenna leads" in said) == ("antenna" in kinds)
    assert "antenna" not in said or {"antenna", "receiver", "video-transmitter"} & kinds


@pytest.mark.parametrize("name", DEMO)
def test_each_place_of_screws_is_driven_by_one_step_that_says_how_many(
    demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    driven = re.compile("Screws: (?!not known)")
    places = sum(len(driven.findall(told_words(g.steps[0].text))) for g in plan.groups)
    in_groups = sum(
        len(driven.findall(told_words(s.text)))
        for g in plan.groups
        for s in g.steps[1:]
        if not g.id.startswith("mount motor")
    )
    assert places + in_groups == len(sheet.build.screws)


def test_screws_say_which_how_many_from_which_side_and_thread_lock(demo: Checked) -> None:
    plan = demo.sheets["dipper"].results.order
    assert isinstance(plan, Plan)
    said = {s.id: told_words(s.text) for s in plan.steps}
    motor = said["mount motor.1"]
    assert "Screws: 4 × M2 x 6 socket screw, steel. Through the arm into the motor." in motor
    assert "with thread lock on the threads only" in motor
    assert re.search(
        r"Screws: 2 × M2 x 4 .*\. Through the cheek into the camera, no thread lock",
        said["mount camera"],
    )
    assert "4 × M2 x 22" in said["mount esc"]
    assert "8 × Soft mount for M2" in said["screws"]


def test_motors_whose_screws_take_no_thread_lock_say_so(demo: Checked) -> None:
    """Its floor is nylon: thread lock cracks many plastics (common practice, no source)."""
    plan = demo.sheets["pipit"].results.order
    assert isinstance(plan, Plan)
    (group,) = [g for g in plan.groups if g.id == "mount motor"]
    assert "Use no thread lock." in told_words(group.text)


def test_loading_binding_and_charging_are_steps_with_their_settings(demo: Checked) -> None:
    plan = demo.sheets["dipper"].results.order
    assert isinstance(plan, Plan)
    place = {s.id: i for i, s in enumerate(plan.steps)}
    assert place["software"] < place["setup"] < place["first pack"]
    assert place["first pack"] < place["bind receiver"] < place["rotation"] < place["last gate"]
    assert place["last gate"] < place["charge"] == len(place) - 1
    said = {s.id: told_words(s.text) for s in plan.steps}
    assert "The board maker's own release of spring 2026" in said["software"]
    # 650 mAh at 2C, as its shelf entry says
    assert re.search(r"small: lithium polymer, 4 cells, at most 1\.30 A", said["charge"])
    steps = [Stop(s.id, [Line(told_words(s.text))]) for s in plan.steps if s.power]
    assert len(steps) == 6
    assert walk(steps) == []
