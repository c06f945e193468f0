"""Lists beside the order of work, and the steps, speak of what a build has, and say what is not known.

Common practice, no source: what holds a battery, a propeller and a cover; a fan at boards that stay
on; thread lock only where the screw list has it.
"""

import pytest

from builder.compute.order.work_order import Plan
from builder.pages.page_text import words
from builder.pages.paper.field_card import field_card
from builder.pages.sections.upkeep import upkeep
from builder.pages.sheet_input import SheetInput
from builder.pages.told_words import told_words
from builder.pages.work.as_built import as_built_table
from builder.pages.work.bench_things import things
from builder.pipeline.check import Checked, judged_alone
from tests.compute.small_workspace import one_build
from tests.pages.test_setup_and_upkeep import words as said_in


def _steps(sheet: SheetInput) -> dict[str, str]:
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    return {s.id: told_words(s.text) for s in plan.steps}


def test_no_strap_nut_arm_or_post_where_there_is_none(demo: Checked) -> None:
    """Pipit: ducts, a battery that is pushed in, propellers that are pressed on."""
    pipit = demo.sheets["pipit"]
    said = said_in(field_card(pipit)) + said_in(upkeep(pipit))
    for absent in ("trap", "nuts or screws", "standoff", "arms without"):
        assert absent not in said, absent
    for there in ("held fast", "Pull at each propeller", "duct"):
        assert there in said, there
    dipper = demo.sheets["dipper"]
    said = said_in(field_card(dipper)) + said_in(upkeep(dipper))
    for there in ("Strap tight", "nuts or screws", "standoffs", "arms without", "strap slots"):
        assert there in said, there


def test_thread_lock_only_where_the_steps_have_it(demo: Checked) -> None:
    """Pipit's motors are screwed through nylon, which thread lock cracks."""
    for name in ("pipit", "dipper"):
        said = said_in(upkeep(demo.sheets[name]))
        assert "metal meets metal" not in said
        assert "Use thread lock only where its step says so" in said


def test_boards_that_are_felt_after_the_first_hover_are_those_of_the_build(demo: Checked) -> None:
    shelf = "frame: {kind: frame, name: F}\nesc: {kind: speed-controller, name: E}"
    sheet = judged_alone(one_build(shelf, "title: T\nparts: {frame: frame, esc: esc}"))
    assert "speed controller." in said_in(upkeep(sheet))
    assert "video transmitter" not in said_in(upkeep(sheet)).split("After a crash")[0]
    assert "speed controller, video transmitter" in said_in(upkeep(demo.sheets["dipper"]))


@pytest.mark.parametrize(("name", "all_warn"), [("dipper", True), ("pipit", False)])
def test_the_field_card_says_which_alarm_is_not_set(
    demo: Checked, name: str, all_warn: bool
) -> None:
    """Pipit's batteries warn by volts alone, as its setup says."""
    sheet = demo.sheets[name]
    said = repr(field_card(sheet))
    assert ("Land when the first of the three warns." in said) == all_warn
    assert ("No alarm is set for: used charge." in said) != all_warn


@pytest.mark.parametrize("name", ["dipper", "pipit", "curlew", "redshank"])
def test_boards_that_stay_on_have_a_fan(demo: Checked, name: str) -> None:
    """Binding and turning take longer than a gate's seconds without a fan."""
    said = _steps(demo.sheets[name])
    long = [text for step, text in said.items() if step.startswith("bind ") or step == "rotation"]
    assert len(long) >= 2
    for text in long:
        assert text.index("fan on the boards") < text.index("lug in the battery"), text


def test_what_holds_a_cover_is_said_or_not_known(demo: Checked) -> None:
    assert "no screws" in _steps(demo.sheets["pipit"])["fit canopy"]
    assert "not listed here" in _steps(demo.sheets["dipper"])["close"]
    shelf = "frame: {kind: frame, name: F}\nlid: {kind: printed-part, name: Canopy}"
    build = one_build(shelf, "title: T\nparts: {frame: frame, lid: lid}")
    assert "not listed here" in _steps(judged_alone(build))["fit lid"]


@pytest.mark.parametrize("name", ["dipper", "pipit"])
def test_iron_and_solder_lie_ready_for_the_first_wire_that_is_tinned(
    demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    first = min(plan.numbers[s] for s, text in _steps(sheet).items() if " tin" in text)
    for consumable, word in ((False, "iron"), (True, "Solder")):
        made = things(sheet.build, plan, sheet.results.gates, consumable=consumable)
        assert [t.wanted for t in made if word in t.name] == [f"step {first}"]


def test_a_line_from_the_bench_names_the_step_by_its_number(demo: Checked) -> None:
    """A builder's name of an own step is printed nowhere else."""
    sheet = demo.sheets["pipit"]
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    cells = [words(row.cells[1].pieces) for row in as_built_table(sheet).rows]
    assert cells == [f"step {plan.numbers['under-first']}", "gate A, board.5V1", "motor.3"]
    dipper = [words(row.cells[1].pieces) for row in as_built_table(demo.sheets["dipper"]).rows]
    assert dipper[0].startswith("step ") and dipper[0].endswith(": solder pigtail")
