"""Sentences of the order of work that could hurt somebody or burn a part, read as they are
published.

All common practice, no source: an empty mate, no iron on a board with power, a strap clear of the
balance lead, a cell of its own taken out before its leads are cut.
"""

import re
from pathlib import Path

import pytest

from builder.compute.order.work_order import Plan
from builder.pages.blocks import GateBar, Step
from builder.pages.told_words import told_words
from builder.pages.work.plan_items import plan_items
from builder.pipeline.check import Checked
from tests.rules.altered_demo import Tree, case_of

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")


def _texts(plan: object) -> dict[str, str]:
    assert isinstance(plan, Plan)
    return {s.id: told_words(s.text) for s in plan.steps}


@pytest.mark.parametrize("name", DEMO)
def test_what_is_said_at_the_steps(demo: Checked, name: str) -> None:
    said = _texts(demo.sheets[name].results.order)
    assert re.match(
        r"Plug an empty mate into (each )?pigtail, never a battery", said["mate pigtail"]
    )
    assert "without solder, propellers or battery" in said["dry fit"]
    strapped = any(
        getattr(f.part, "form", "") == "strap" for f in demo.workspace.builds[name].parts.values()
    )
    clear = "Keep its leads clear of edges and propellers."
    if strapped:
        clear = "Keep the strap off its leads and its balance lead."
    assert clear in said["balance"]
    assert any("strap" in text.casefold() for text in said.values()) == strapped
    assert ("capacitor" in said["tie"]) == any(
        f.part.KIND == "capacitor" for f in demo.workspace.builds[name].parts.values()
    )


@pytest.mark.parametrize("name", DEMO)
def test_no_board_is_touched_with_power_on(demo: Checked, name: str) -> None:
    """Every gate is said to begin and end with the power off, before the next tool comes near."""
    items = plan_items(demo.sheets[name])
    bars = [i for i in items if isinstance(i, GateBar)]
    assert bars
    assert all("It begins and ends with the power off." in str(b) for b in bars)


@pytest.mark.parametrize("name", DEMO)
def test_cautions_say_the_hazard_then_the_consequence_then_what_to_do(
    demo: Checked, name: str
) -> None:
    steps = [i for i in plan_items(demo.sheets[name]) if isinstance(i, Step)]
    cautions = [
        str(i)
        for i in steps
        if "Unplug the battery and put it aside before you touch a propeller." in str(i)
    ]
    assert len(cautions) == 1
    assert any(
        "Take the propellers off. Check red to plus and black to minus again." in str(i)
        for i in steps
    )


def _own_cell(tree: Tree) -> None:
    tree["parts"]["buzzer"]["use"] = "buzzer-cell"


def test_leads_of_a_part_with_a_cell_of_its_own_are_not_cut_together(tmp_path: Path) -> None:
    root = Path(__file__).resolve().parents[2]
    text = (root / "builds/shelf/extras.yaml").read_text("utf-8")
    entry = re.search(r"\nbuzzer-finch:\n(.*?)\n(?=\S)", text + "\nend:", re.DOTALL)
    assert entry
    shelf = "buzzer-cell:\n" + entry[1] + "\n  own_cell: yes\n"
    case = case_of(tmp_path, "redshank", _own_cell, shelf)
    text = _texts(case.whole.order)["mount buzzer"]
    assert text.index(
        "take that out first, or cut one lead at a time and tape each end"
    ) < text.index("Trim its free leads")


def test_a_capacitor_that_may_lie_either_way_has_no_stripe(tmp_path: Path) -> None:
    root = Path(__file__).resolve().parents[2]
    text = (root / "builds/shelf/power.yaml").read_text("utf-8")
    entry = "cap-plain:" + text.split("cap-470-35:")[1].split("\ncap-1000-35:")[0].replace(
        "polarised: yes", "polarised: no"
    )
    case = case_of(
        tmp_path, "dipper", lambda t: t["parts"]["capacitor"].update(use="cap-plain"), entry
    )
    assert "stripe" not in _texts(case.whole.order)["legs capacitor"]
