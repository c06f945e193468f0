"""What to lay out follows from the steps; what the build lists is not asked for twice. Common
practice, no source.
"""

from builder.compute.compute import compute
from builder.compute.order.steps.work_step import WorkStep
from builder.compute.order.work_order import Plan
from builder.pages.work.bench_things import Thing, things
from builder.pipeline.check import Checked
from tests.compute.small_workspace import one_build


def _laid(demo: Checked, name: str, *, consumable: bool) -> dict[str, Thing]:
    sheet = demo.sheets[name]
    assert isinstance(sheet.results.order, Plan)
    return {t.key: t for t in things(sheet.build, sheet.results.order, consumable=consumable)}


def _steps(demo: Checked, name: str) -> dict[str, WorkStep]:
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    numbered = [g for g in plan.groups if not g.gate]
    return {f"step {i}": g.steps[0] for i, g in enumerate(numbered, 1)}


def test_what_the_hands_need_is_listed_with_the_step_that_asks_for_it(demo: Checked) -> None:
    tools, steps = _laid(demo, "redshank", consumable=False), _steps(demo, "redshank")
    for key, step in (
        ("cutters", "cut pigtail"),
        ("strippers", "cut pigtail"),
        ("eyes", "cut pigtail"),
        ("mate", "mate pigtail"),
        ("heat", "sleeve pigtail"),
        ("lens", "inspect esc"),
        ("limiter", "first pack"),
    ):
        assert steps[tools[f"need-{key}"].wanted].id == step
    assert tools["need-strippers"].note == "for 12 to 30 AWG"
    assert tools["need-drivers"].note == "M2, M3"
    used = _laid(demo, "redshank", consumable=True)
    assert {"need-ties", "need-tape", "need-glue", "need-cleaner", "need-sleeve"} <= set(used)
    assert steps[used["need-ties"].wanted].id == "mount receiver"


def test_what_the_build_lists_is_not_asked_for_twice(demo: Checked) -> None:
    tools, used = _laid(demo, "dipper", consumable=False), _laid(demo, "dipper", consumable=True)
    assert not {"need-iron", "need-meter", "need-scale", "need-supply", "need-drivers"} & set(tools)
    assert not {"need-solder", "need-flux", "need-lock", "need-coating"} & set(used)
    assert tools["bench-supply"].wanted == "gate A"
    assert _steps(demo, "dipper")[used["coating"].wanted].id == "coat"


def test_a_build_without_wires_asks_for_no_iron() -> None:
    build = one_build("frame: {kind: frame, name: Frame}", "title: T\nparts: {frame: frame}")
    plan = compute(build).order
    assert isinstance(plan, Plan)
    asked = {
        t.key for consumable in (False, True) for t in things(build, plan, consumable=consumable)
    }
    assert not {"need-iron", "need-cutters", "need-solder", "need-lens", "need-limiter"} & asked
    assert "need-scale" in asked
