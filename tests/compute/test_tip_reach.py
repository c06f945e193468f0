"""No tip that is proposed, for a joint or for tinning, reaches the pad beside it.

Geometry of its own, from the words that are printed and the file of the board: a tip is centred on a
pad; half its width may be no more than half the pad and the gap beside it. Widths of tips are those
of `assumed.toml` (from memory: conical, small and large chisel).
"""

import re
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.compute.compute import compute
from builder.compute.order.work_order import Plan
from builder.model.build import Build
from builder.pages.told_words import told_words
from builder.pipeline.check import Checked
from tests.compute.small_workspace import one_build

pytestmark = pytest.mark.slow  # takes long

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")
WIDE = {"fine": 0.0008, "medium": 0.0016, "broad": 0.0032}


def _pads_of_steps(plan: Plan) -> Iterator[tuple[str, str, str]]:
    """Each pad that the iron goes to, with the tip: from the words of the steps."""
    for step in plan.steps:
        said = told_words(step.text)
        tinned = re.match(r"Tin (?!the cups)(.*) of (\S+?)( on the underside)?\.$", said)
        soldered = re.match(r"Solder .* to (\S+)\.(\S+?)( in one heating)?\.$", said)
        if tinned:
            yield from ((tinned[2], pad, step.tip) for pad in tinned[1].split(", "))
        elif soldered and step.joint is not None and not step.joint.cup:
            yield soldered[1], soldered[2], step.tip


def _too_wide(build: Build, plan: Plan) -> list[str]:
    out = []
    for board, name, tip in _pads_of_steps(plan):
        pad = build.parts[board.split(".")[0]].part.pads[name]
        if pad.pad_size is None:
            continue
        own = min(pad.pad_size.along)
        gaps = [pad.gap.value] if pad.gap is not None else []
        gaps += [pad.pitch.value - own] if pad.pitch is not None else []
        if gaps and WIDE[tip] / 2 >= own / 2 + min(gaps):
            out.append(f"{board}.{name}: {tip}")
    return out


def _plan(build: Build) -> Plan:
    plan = compute(build).order
    assert isinstance(plan, Plan)
    return plan


@pytest.mark.parametrize("name", DEMO)
def test_no_tip_reaches_the_next_pad(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    assert isinstance(sheet.results.order, Plan)
    assert len(list(_pads_of_steps(sheet.results.order))) > 20
    assert _too_wide(sheet.build, sheet.results.order) == []


def test_a_ground_beside_a_rail_is_not_tinned_with_the_battery(demo: Checked) -> None:
    plan = demo.sheets["pipit"].results.order
    assert isinstance(plan, Plan)
    tips = {(pad, tip) for _, pad, tip in _pads_of_steps(plan) if pad in ("GND1", "BAT-")}
    assert tips == {("GND1", "medium"), ("BAT-", "broad")}


_SHELF = """
frame: {{kind: frame, name: Frame}}
pigtail: {{kind: connector, name: Pigtail, pads: {{PLUS: {{role: supply, polarity: plus}}, MINUS: {{role: ground, polarity: minus}}}}}}
camera: {{kind: camera, name: Camera, pads: {{G: {{role: ground}}, V: {{role: draws}}}}}}
board:
  kind: combined-board
  name: Board
  pads:
    BAT+: {{role: draws, battery: yes, polarity: plus, pad_size: {battery} x 4 mm, copper: {plus}}}
    BAT-: {{role: ground, battery: yes, polarity: minus, pad_size: {battery} x 4 mm, copper: plane}}
    GND: {{role: ground, pitch: {pitch} mm, {gap}pad_size: {own} x 3 mm, copper: plane}}
    5V: {{role: supply, pitch: {pitch} mm, {gap}pad_size: {own} x 3 mm, copper: power}}
"""
_BUILD = """
title: T
parts: {frame: frame, pigtail: pigtail, board: board, camera: camera}
wires:
  - {from: pigtail.PLUS, to: board.BAT+, gauge: GAUGE AWG, length: 80 mm}
  - {from: pigtail.MINUS, to: board.BAT-, gauge: GAUGE AWG, length: 80 mm}
  - {from: camera.G, to: board.GND, gauge: 22 AWG, length: 60 mm}
  - {from: camera.V, to: board.5V, gauge: 22 AWG, length: 60 mm}
"""


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from([12, 16, 20, 26]),
    st.sampled_from([2.0, 2.6, 4.0]),
    st.sampled_from([0.6, 1.0, 1.4, 2.6]),
    st.sampled_from([0.2, 0.4, 0.6, 1.0]),
    st.sampled_from(["plane", "power"]),
    st.booleans(),
)
def test_no_tip_of_a_made_up_board_reaches_the_next_pad(
    gauge: int, battery: float, own: float, gap: float, plus: str, says_gap: bool
) -> None:
    shelf = _SHELF.format(
        battery=battery,
        own=own,
        pitch=round(own + gap, 2),
        gap=f"gap: {gap} mm, " if says_gap else "",
        plus=plus,
    )
    build = one_build(shelf, _BUILD.replace("GAUGE", str(gauge)))
    plan = _plan(build)
    assert {pad for _, pad, _ in _pads_of_steps(plan)} >= {"GND", "5V", "BAT+", "BAT-"}
    assert _too_wide(build, plan) == []
