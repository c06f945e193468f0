"""What to lay out follows from the steps; what the build lists is not asked for twice. Common
practice, no source.
"""

import re

from builder.compute.compute import compute
from builder.compute.order.steps.work_step import WorkStep
from builder.compute.order.work_order import Plan
from builder.pages.told_words import told_words
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
    assert steps[used["need-ties"].wanted].id == "cap-lay"


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


def test_what_the_words_of_the_steps_ask_for_is_listed_from_the_first_of_them(
    demo: Checked,
) -> None:
    """Told apart from the needs: by the words of every step, in their order."""
    asked = (
        ("need-ties", True, r"\b[Tt]ies?\b"),
        ("need-scraper", False, r"\benamel\b"),
        ("need-key-M3", False, r"Into the nut"),
        ("need-marker", True, r"Mark the arrow"),
        ("need-plate", False, r"^Solder |then solder its"),
    )
    sheet = demo.sheets["turnstone"]
    assert isinstance(sheet.results.order, Plan)
    plan = sheet.results.order
    laid = {c: _laid(demo, "turnstone", consumable=c) for c in (False, True)}
    numbered = [g for g in plan.groups if not g.gate]
    for key, consumable, words in asked:
        at = next(
            i
            for i, g in enumerate(numbered, 1)
            if any(re.search(words, told_words(t)) for t in (g.text, *(s.text for s in g.steps)))
        )
        assert laid[consumable][key].wanted == f"step {at}", key


def test_each_connector_has_its_mate_and_its_nuts_their_key(demo: Checked) -> None:
    """The key for the nuts of propellers does not turn those of the stack."""
    assert _laid(demo, "turnstone", consumable=False)["need-mate"].name.startswith("2 × ")
    for name, thread in (
        ("turnstone", "M3"),
        ("curlew", "M3"),
        ("redshank", "M3"),
        ("pipit", "M2"),
    ):
        laid = _laid(demo, name, consumable=False)
        assert laid[f"need-key-{thread}"].wanted.startswith("step "), name
        assert laid["need-rule"].wanted.startswith("step ")
