"""What lies where in the printed order of work, on all demo builds and on made-up ones; and that each
check finds what it is for.
"""

import re

import pytest
from hypothesis import given, settings

from builder.compute.compute import compute
from builder.compute.order.work_order import Cycle
from builder.pipeline.check import Checked
from tests.compute.bench_places import (
    closes_nothing,
    contacts_of_cables,
    devices_not_there,
    layers_out_of_turn,
    limiter_out_of_turn,
    places_unsaid,
)
from tests.compute.bench_reading import Read, read, unjudged
from tests.compute.made_up_builds import CHOICES, Choice, build_of
from tests.compute.test_bench_reading import DEMO, on_paper

pytestmark = pytest.mark.slow  # takes long


@pytest.mark.parametrize("paper", [True, False])
@pytest.mark.parametrize("name", DEMO)
def test_a_hand_finds_every_place(demo: Checked, name: str, paper: bool) -> None:
    sheet = demo.sheets[name]
    steps = read(sheet, paper=paper)
    assert list(layers_out_of_turn(sheet.build, steps)) == []
    assert list(places_unsaid(sheet.build, steps)) == []
    assert list(closes_nothing(steps)) == []
    assert list(devices_not_there(steps)) == []


@settings(max_examples=25, deadline=None)
@given(CHOICES)
def test_so_does_one_on_made_up_builds(choice: Choice) -> None:
    build = build_of(choice)
    results = compute(build)
    if isinstance(results.order, Cycle):
        return
    steps = read(unjudged(build, results))
    assert list(layers_out_of_turn(build, steps)) == []
    assert list(places_unsaid(build, steps)) == []
    assert list(closes_nothing(steps)) == []
    assert list(devices_not_there(steps)) == []


@pytest.mark.parametrize("name", DEMO)
def test_the_limiter_is_out_once_and_comes_in_again_for_a_reason(demo: Checked, name: str) -> None:
    """A motor's current would trip it, and a frame that was closed may pinch a wire."""
    text = on_paper(demo.sheets[name])
    assert list(limiter_out_of_turn(text)) == []
    assert text.count("Take the limiter out") == 2
    assert "Put it in again: a wire may be pinched now." in text


@pytest.mark.parametrize("name", ["dipper", "redshank", "curlew"])
def test_each_contact_of_a_harness_has_its_number_at_both_ends(demo: Checked, name: str) -> None:
    """A harness in the hand has no names on it. Redshank's and curlew's lie reversed."""
    sheet = demo.sheets[name]
    assert any(p.plug.use for p in sheet.build.plugs)
    assert list(contacts_of_cables(sheet.build, on_paper(sheet))) == []


@pytest.mark.parametrize("name", DEMO)
def test_no_hand_holds_it_while_a_battery_is_on(demo: Checked, name: str) -> None:
    text = on_paper(demo.sheets[name])
    tilted = text.index("Prop it up, tilted")
    assert re.search(r"Unplug (the|every) battery\. Wait until", text[tilted - 120 : tilted])
    assert "Hold it tilted" not in text


def test_boards_lie_on_what_does_not_conduct(demo: Checked) -> None:
    """Common practice, no source: a bit of wire below a board is a short at the first power."""
    text = on_paper(demo.sheets["dipper"])
    assert text.index("dry that does not conduct") < text.index("Gate A:")


def test_each_check_finds_what_it_is_for(demo: Checked) -> None:
    """As the sheets once had it, so that none passes by saying nothing."""
    sheet = demo.sheets["redshank"]
    steps = read(sheet)
    first = "Heads on the base plate. Then in order: soft mount, speed controller board, spacer,"
    both = Read("15", (), f"Set esc. {first} soft mount, control board. Into the nut.")
    assert len(list(layers_out_of_turn(sheet.build, [both]))) == 1
    assert len(list(layers_out_of_turn(sheet.build, []))) == 1
    assert list(closes_nothing([Read("46", (), "Close the frame. Pinch no wire.")]))
    lost = [Read(s.number, (), s.text, tuple(b.replace("mm", "") for b in s.boxes)) for s in steps]
    assert len(list(places_unsaid(sheet.build, lost))) >= 5
    turned = [
        Read(s.number, (), s.text, tuple(b.replace(" left", " right") for b in s.boxes))
        for s in steps
    ]
    assert list(places_unsaid(sheet.build, turned))
    early = Read("1", (), "Solder video to controller: GND.")
    late = Read("2", (), "Tin the pads of video, then solder its wires: GND.")
    assert list(devices_not_there([early, late]))
    assert list(limiter_out_of_turn("Take the limiter out. Then: Take the limiter out."))
    assert list(limiter_out_of_turn("Plug in through the limiter. Put it in again."))
    straight = "1 to 1 esc.TLM controller.RX3"
    assert len(list(contacts_of_cables(sheet.build, straight))) == 8
