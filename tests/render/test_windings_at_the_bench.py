"""What is typed of a winding is judged by what its motor's entry says, and by what a hand meter can
tell apart. The ohms are read from the shelf's file here, not from the model.

A meter of 0.1 Ω a digit, its leads: common practice, no source.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from playwright.sync_api import Page as Tab

from builder.compute.order.work_order import Plan
from builder.pages.bench.bands import Band, bands_of
from builder.pages.blocks import Step
from builder.pages.paper.work_entries import entries
from builder.pipeline.check import Checked, judged_alone
from builder.render.assets import asset_files
from tests.compute.small_workspace import one_build

WINDING = {"turnstone": 0.15, "curlew": 0.095, "pipit": 0.23}
MOTOR = "motor: {kind: motor, name: Motor, FACT leads: {count: 3, gauge: 24 AWG, length: 100 mm}, pads: {A: PH, B: PH, C: PH}}"
FRAME = "frame: {kind: frame, name: Frame}\n"


@pytest.fixture(scope="module")
def judge(browser: Browser) -> Iterator[Tab]:
    tab = browser.new_page()
    tab.set_content('<script id="bench-data" type="application/json">{"words": {}}</script>')
    tab.add_script_tag(content=asset_files(None)["assets/bench-judge.js"].decode())
    yield tab
    tab.close()


def _verdict(tab: Tab, band: Band, text: str) -> str:
    return str(tab.evaluate("r => bench.judge(r[0], r[1]).verdict", [band.as_plain(), text]))


def _phases(bands: tuple[Band, ...]) -> Band:
    return next(b for b in bands if b.step.startswith("spin motor") and "phases" in b.label)


def _made_up(fact: str, phases: int = 3) -> tuple[Band, ...]:
    pad = "{role: phase}"
    motor = MOTOR.replace("FACT", f"{fact} phases: {phases}," if phases == 2 else fact)
    build = one_build(
        FRAME + motor.replace("PH", pad), "title: T\nparts: {frame: frame, motor: motor}"
    )
    return bands_of(judged_alone(build))


@pytest.mark.parametrize("name", WINDING)
def test_a_winding_is_judged_by_its_motors_entry(demo: Checked, judge: Tab, name: str) -> None:
    band = _phases(bands_of(demo.sheets[name]))
    for same in ("0.3 0.3 0.4", "0,2 / 0,2 / 0,1", "0.1 0.1 0.2", "0.2, 0.2, 0.2"):
        assert _verdict(judge, band, same) == "right", same
    for other in (
        "12 12 12",
        "12 0.2 0.2",
        "OL OL OL",
        "OL, OL, OL",
        "0.2 OL OL",
        "open open open",
    ):
        assert _verdict(judge, band, other) == "wrong", other
    for few in ("0.2", "0.2 0.2", "beep beep beep", "beep"):
        assert _verdict(judge, band, few) == "doubtful", few
    assert _verdict(judge, band, "0.2 0.2 0.6") == "doubtful"


def test_a_winding_that_nobody_says_is_judged_by_its_pairs_alone(judge: Tab) -> None:
    band = _phases(_made_up(""))
    assert _verdict(judge, band, "12 12 12") == "right"
    assert _verdict(judge, band, "12 12 20") == "doubtful"
    assert _verdict(judge, band, "OL OL OL") == "wrong"


def test_a_brushed_motor_has_one_winding(judge: Tab) -> None:
    bands = _made_up("resistance: 2 ohm,", 2)
    assert not [b for b in bands if "three" in b.label]
    (band,) = [b for b in bands if b.label == "lead to lead"]
    assert _verdict(judge, band, "2.3") == "right"
    assert _verdict(judge, band, "40") == "wrong"
    assert _verdict(judge, band, "OL") != "right"


def test_open_pairs_typed_one_by_one_are_understood(demo: Checked, judge: Tab) -> None:
    """Where no beep is right it is right as often as it is typed, and one that reads low is not."""
    band = next(b for b in bands_of(demo.sheets["turnstone"]) if b.label == "phase to base")
    for text in ("OL OL OL", "no beep no beep", "OL;OL", "O.L. 0L"):
        assert _verdict(judge, band, text) == "right", text
    assert _verdict(judge, band, "OL 0.3 OL") == "wrong"
    minus = next(
        b for b in bands_of(demo.sheets["turnstone"]) if b.label.startswith("each to minus")
    )
    assert _verdict(judge, minus, "OL OL") == "right"
    assert _verdict(judge, minus, "OL 1.2M") == "doubtful"


def test_paper_has_a_line_for_each_reading(demo: Checked) -> None:
    """Three pairs and one to the base are four."""
    sheet = demo.sheets["turnstone"]
    assert isinstance(sheet.results.order, Plan)
    for entry in entries(sheet, sheet.results.order):
        if entry.steps[0].id.startswith("spin ") and isinstance(entry.shown, Step):
            for part in entry.shown.parts:
                assert sum(w.count for w in part.write_ins) == 4
                assert "about 0.15 Ω each" in part.write_ins[0].expect


def test_the_shelf_says_what_these_tests_say(root: Path) -> None:
    text = (root / "builds" / "shelf" / "motors.yaml").read_text("utf-8")
    for ohms in WINDING.values():
        assert f"{1000 * ohms:.0f} mohm" in text
