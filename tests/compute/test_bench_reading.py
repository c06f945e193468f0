"""The printed order of work read line by line, on the demo builds and on made-up ones: cautions at
their first step, covers last, corners of motors, frames, and where a wait is measured.
"""

import re
from html import unescape
from pathlib import Path

import pytest
from hypothesis import given, settings

from builder.compute.compute import compute
from builder.compute.order.work_order import Cycle
from builder.compute.power_up.emptied import battery_empty, wait_for_rails
from builder.pages.page_text import words
from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.sheet_input import SheetInput
from builder.pages.site.site_pages import site_pages
from builder.pages.work.meter_tests import meter_tests
from builder.pipeline.check import Checked
from builder.render.html.page import template_texts
from builder.render.paper.pdf import bench_sheet_html
from tests.compute.bench_reading import (
    Read,
    frames_unbuilt,
    graver_below,
    hazards_told_late,
    motors_without_a_place,
    reached_under_a_cover,
    read,
    unjudged,
    waits_without_a_place,
)
from tests.compute.made_up_builds import CHOICES, Choice, build_of
from tests.rules.altered_demo import Tree, case_of

pytestmark = pytest.mark.slow  # takes long

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit")


def on_paper(sheet: SheetInput) -> str:
    """All words of a bench sheet, also those that stand beside each other."""
    site = site_pages(sheet.build.site)
    html = bench_sheet_html(bench_sheet(sheet, site, "digest"), site, template_texts(None))
    plain = re.sub(r"<(style|title|desc)[^>]*>.*?</\1>|<[^>]*>", " ", html, flags=re.S)
    return " ".join(unescape(plain).split())


def _wrong(sheet: SheetInput, *, paper: bool) -> list[str]:
    steps = read(sheet, paper=paper)
    return [
        *hazards_told_late(sheet.build, steps),
        *graver_below(steps),
        *motors_without_a_place(sheet.build, steps),
        *frames_unbuilt(sheet.build, steps),
        *waits_without_a_place(sheet.build, " ".join(s.all for s in steps)),
    ]


@pytest.mark.parametrize("paper", [True, False])
@pytest.mark.parametrize("name", DEMO)
def test_demo_builds_are_read_without_a_stop(demo: Checked, name: str, paper: bool) -> None:
    assert _wrong(demo.sheets[name], paper=paper) == []


@settings(max_examples=25, deadline=None)
@given(CHOICES)
def test_made_up_builds_are_read_without_a_stop(choice: Choice) -> None:
    build = build_of(choice)
    results = compute(build)
    if not isinstance(results.order, Cycle):
        assert _wrong(unjudged(build, results), paper=True) == []


@pytest.mark.parametrize("name", DEMO)
def test_every_wait_on_paper_says_where_it_is_measured(demo: Checked, name: str) -> None:
    """Under 1 V between which contacts, by their print; also after USB, in the lists of setup and
    upkeep, and on the field card.
    """
    text = on_paper(demo.sheets[name])
    assert len(re.findall("under 1 V", text)) > 20
    assert list(waits_without_a_place(demo.sheets[name].build, text)) == []


def test_a_wait_without_a_place_is_found(demo: Checked) -> None:
    build = demo.sheets["dipper"].build
    for said in (
        "Unplug USB and wait until the rails read under 1 V.",
        "Wait until plus to minus reads under 1 V.",
        "Wait until 5V1 to TX1 of controller reads under 1 V.",
        "Wait until 7V1 to GND1 of controller reads under 1 V.",
        "Wait until plus to minus at nowhere reads under 1 V.",
    ):
        assert list(waits_without_a_place(build, said)), said


def _bare(tree: Tree) -> None:
    """The battery's leads go to the board without a plug."""
    tree["parts"].pop("pigtail")
    tree["wires"] = [w for w in tree["wires"] if "pigtail" not in f"{w['from']} {w['to']}"]
    tree.pop("as_built", None)
    tree.pop("steps", None)


def test_without_a_plug_the_contacts_of_the_board_are_named(tmp_path: Path) -> None:
    case = case_of(tmp_path, "pipit", _bare)
    said = battery_empty(case.build, case.whole.gates)
    assert said == "BAT+ to BAT- of board reads under 1 V"


def test_no_reading_is_asked_on_a_rail_that_usb_does_not_feed(demo: Checked) -> None:
    """Pipit's board says that USB feeds none of its rails; dipper's that it feeds 5 V, not 9 V."""
    pipit, dipper = (demo.sheets[n].build for n in ("pipit", "dipper"))
    assert "under 1 V" not in wait_for_rails(pipit.parts["board"])
    assert wait_for_rails(pipit.parts["board"]).startswith("wait 60 s")
    assert "5V1 to GND1 of controller" in wait_for_rails(dipper.parts["controller"])
    assert "9V1" not in wait_for_rails(dipper.parts["controller"])
    assert wait_for_rails(None).startswith("wait 60 s")


@pytest.mark.parametrize("paper", [True, False])
def test_a_canopy_is_fitted_once_nothing_below_it_is_reached(demo: Checked, paper: bool) -> None:
    steps = read(demo.sheets["pipit"], paper=paper)
    assert list(reached_under_a_cover(steps, "Canopy with camera cheeks")) == []
    assert any("Tape the canopy aside" in s.all for s in steps)


COVER = "lid-part: {kind: printed-part, name: %s, mass: 3 g}"


def _covered(tree: Tree) -> None:
    tree["parts"]["lid-part"] = {"use": "lid-part"}


def _own_step(tree: Tree) -> None:
    _covered(tree)
    tree["steps"].append({"id": "lid-on", "do": "mount", "text": "Fit Zlid.", "part": "lid-part"})


@pytest.mark.parametrize(
    ("build", "name", "change"),
    [
        ("dipper", "Top plate", _covered),
        ("curlew", "Shell of nylon", _covered),
        ("pipit", "Battery hood", _own_step),
    ],
)
def test_whatever_lies_over_the_boards_is_fitted_last(
    tmp_path: Path, build: str, name: str, change: object
) -> None:
    assert callable(change)
    case = case_of(tmp_path, build, change, COVER % name)
    steps = read(unjudged(case.build, case.whole))
    cover = "Zlid" if change is _own_step else name
    assert list(reached_under_a_cover(steps, cover)) == []


def _placed(tree: Tree) -> None:
    _own_step(tree)
    tree["steps"][-1]["before"] = "setup"


def test_the_builder_may_put_a_cover_on_sooner(tmp_path: Path) -> None:
    case = case_of(tmp_path, "dipper", _placed, COVER % "Top plate")
    assert not isinstance(case.whole.order, Cycle)
    names = [s.id for s in case.whole.order.steps]
    assert names.index("lid-on") < names.index("setup")


def test_the_reading_finds_what_it_is_for(demo: Checked) -> None:
    """Each kind once, so that none of the checks passes by saying nothing."""
    sheet = demo.sheets["dipper"]
    steps = read(sheet)
    bare = [Read(s.number, (), s.text, s.boxes) for s in steps]
    assert len(list(hazards_told_late(sheet.build, bare))) >= 6
    upside = [Read(s.number, s.cautions[::-1], s.text, s.boxes) for s in steps]
    assert list(graver_below(upside))
    unsaid = [Read(s.number, s.cautions, s.text.replace("corner", "arm")) for s in steps]
    assert len(list(motors_without_a_place(sheet.build, unsaid))) >= 4
    assert list(frames_unbuilt(sheet.build, [s for s in steps if "If in pieces" not in s.text]))
    early = [*steps[:2], Read("2b", (), "Fit Canopy in its place."), *steps[2:]]
    assert list(reached_under_a_cover(early, "Canopy"))


def _framed(tree: Tree) -> None:
    arms = {"place": "arms", "use": "motor-screw", "count": "8", "into": "press nut"}
    tree["screws"].append(arms | {"through": [{"what": "arm", "thick": "3.5 mm"}]})
    top = {"place": "top plate", "use": "motor-screw", "count": "4", "into": "standoff"}
    tree["screws"].append(top | {"through": [{"what": "top plate", "thick": "2 mm"}]})


def test_screws_of_the_frame_are_driven_where_it_is_put_together(tmp_path: Path) -> None:
    """Arms before the motors sit on them, the top plate at the end (common practice, no source)."""
    case = case_of(tmp_path, "dipper", _framed)
    steps = read(unjudged(case.build, case.whole))
    said = {s.number: s.text for s in steps}
    (frame,) = [t for t in said.values() if " together, but leave its top open" in t]
    assert "8 × M2 x 6 socket screw, steel" in frame
    (closed,) = [t for t in said.values() if t.startswith("Close the frame")]
    assert "4 × M2 x 6 socket screw, steel" in closed
    assert list(frames_unbuilt(case.build, steps)) == []


def _plain(sheet: SheetInput) -> str:
    told = meter_tests(sheet)
    return " ".join(map(words, told.items))


@pytest.mark.parametrize("name", DEMO)
def test_the_charge_used_is_read_where_something_shows_it(demo: Checked, name: str) -> None:
    """Only in the picture, at the place that the build's file names; else nothing is calibrated."""
    sheet = demo.sheets[name]
    shown = [o for o in sheet.build.source.setup.overlay if "charge" in o.field]
    said = _plain(sheet)
    if shown:
        assert (
            f"read '{shown[0].field}' in the picture ({shown[0].at}) with the battery still on"
            in said
        )
    else:
        assert "No figure in the picture shows the charge used" in said
        assert "Calibrate after" not in said
        assert "shown used" not in said


def test_pipit_shows_no_charge(demo: Checked) -> None:
    """So both ways are read by the test above."""
    assert "No figure in the picture" in _plain(demo.sheets["pipit"])
    assert "No figure in the picture" not in _plain(demo.sheets["curlew"])


@pytest.mark.parametrize("name", DEMO)
def test_a_lost_link_is_told_by_what_is_seen(demo: Checked, name: str) -> None:
    """'motors stop, until ...' reads as if they came on again: a remark is a sentence of its own."""
    text = on_paper(demo.sheets[name])
    assert not re.search(r"motors (must )?stop, ", text)
    assert "within 1.0 s all motors must stop." in text
    assert "Link lost: all motors stop and it falls. Keep clear." in text


def _comes_home(tree: Tree) -> None:
    tree["setup"]["fail_safe"]["does"] = "comes home"


def test_on_the_bench_motors_that_go_on_are_switched_off(tmp_path: Path) -> None:
    case = case_of(tmp_path, "curlew", _comes_home)
    text = on_paper(unjudged(case.build, case.whole))
    assert "within 1.0 s the motors go on, and may speed up." in text
    assert "Then switch it on again and switch to safe: the motors stop at once." in text
    assert "all motors must stop" not in text
