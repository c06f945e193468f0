"""Random builds: every insisted constraint holds in the order, by a checker written apart from the planner."""

import pytest
from hypothesis import given, settings

from builder.compute.compute import compute
from builder.compute.work_order import Plan
from builder.pipeline.check import Checked
from tests.compute.made_up_builds import CHOICES, Choice, build_of
from tests.compute.order_checker import broken


@settings(max_examples=80, deadline=None)
@given(CHOICES)
def test_the_order_of_a_random_build_can_be_worked_by(choice: Choice) -> None:
    build = build_of(choice)
    plan = compute(build).order
    assert isinstance(plan, Plan)
    assert plan.unknown == ()
    assert broken(build, plan) == []
    place = {s.id: i for i, s in enumerate(plan.steps)}
    for i, (field, name) in enumerate(choice.own):
        meant = [n for n in place if n == name or (name == "solder pigtail" and _pigtail(plan, n))]
        for other in meant:
            assert (place[f"own-{i}"] < place[other]) == (field == "before"), (name, other)


def _pigtail(plan: Plan, name: str) -> bool:
    joint = next(s.joint for s in plan.steps if s.id == name)
    return joint is not None and any(c.part == "pigtail" for c in (joint.contact, *joint.others))


@pytest.mark.parametrize("name", ["dipper", "dipper-light", "redshank", "curlew", "pipit"])
def test_the_order_of_a_demo_build_can_be_worked_by(demo: Checked, name: str) -> None:
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    assert plan.unknown == ()
    assert broken(demo.sheets[name].build, plan) == []


def test_the_checker_finds_a_bad_order() -> None:
    """A plain listing of the steps backwards breaks nearly everything."""
    choice = Choice(False, False, 4, True, ("receiver", "video", "camera"), ("camera",), ())
    build = build_of(choice)
    plan = compute(build).order
    assert isinstance(plan, Plan)
    turned = Plan(plan.steps[::-1], plan.constraints, plan.changes, plan.plain, plan.exact, ())
    assert len(broken(build, turned)) > 25
