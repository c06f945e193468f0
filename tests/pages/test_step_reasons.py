"""Why a step stands where it does is a sentence: what it comes after, as the reader sees it, and
because of what.
"""

import re

import pytest

from builder.compute.order.work_order import Plan
from builder.pages.blocks import GateBar, Step
from builder.pages.work.plan_items import because, plan_items
from builder.pipeline.check import Checked

BUILDS = ("dipper", "dipper-light", "pipit", "redshank", "curlew", "turnstone")


def _plan(demo: Checked, build: str) -> Plan:
    plan = demo.sheets[build].results.order
    assert isinstance(plan, Plan)
    return plan


@pytest.mark.parametrize("build", BUILDS)
def test_each_reason_is_a_sentence_that_names_an_earlier_step_or_gate(
    demo: Checked, build: str
) -> None:
    gates: list[str] = []
    told = 0
    for item in plan_items(demo.sheets[build]):
        if isinstance(item, GateBar):
            gates.append(item.title.casefold())
            continue
        if not item.reason:
            continue
        told += 1
        assert (
            item.reason[0].isupper()
            and item.reason.endswith(".")
            and not item.reason.endswith("..")
        ), item.reason
        put = re.fullmatch(
            r"The build names no place for it: put after (?:step (\d+)|(gate [A-Z]))\.", item.reason
        )
        found = put or re.match(r"After (?:step (\d+)|(gate [A-Z])), because [^A-Z]", item.reason)
        if found is None:
            assert any(s.reason == item.reason for s in demo.sheets[build].build.source.steps), (
                item.reason
            )
        elif found[1]:
            assert int(found[1]) < int(item.number)
        else:
            assert found[2].casefold() in gates
    assert told > 20


def test_it_is_the_last_of_all_that_has_to_come_before(demo: Checked) -> None:
    plan = _plan(demo, "dipper")
    place = {s.id: i for i, s in enumerate(plan.steps)}
    for step in plan.steps:
        before = [place[c.before] for c in plan.constraints if c.after == step.id]
        waits = plan.waits_for(step.id)
        assert (place[waits.before] if waits is not None else None) == max(before, default=None)


def test_a_builders_own_reason_stands_as_it_was_written(demo: Checked) -> None:
    own = [s.reason for s in demo.sheets["dipper"].build.source.steps if s.reason]
    shown = [i.reason for i in plan_items(demo.sheets["dipper"]) if isinstance(i, Step)]
    assert own
    for reason in own:
        assert reason in shown


@pytest.mark.parametrize(
    ("reason", "said"),
    [
        ("lengths are known", "because lengths are known"),
        ("The mast carries both.", "because the mast carries both."),
        ("A screw reaches the winding", "because a screw reaches the winding"),
        ("USB feeds it alone", "because USB feeds it alone"),
        ("5 V is there first", "because 5 V is there first"),
    ],
)
def test_a_reason_goes_on_behindbecause(reason: str, said: str) -> None:
    assert because(reason) == said
