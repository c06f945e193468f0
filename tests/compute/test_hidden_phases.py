"""Motors soldered to the underside of their board: the order can be worked by. Common practice, no
source.
"""

import pytest

from builder.compute.compute import compute
from builder.compute.order.work_order import Plan
from builder.pages.told_words import told_words
from tests.compute import made_up_builds
from tests.compute.made_up_builds import Choice, build_of
from tests.compute.order_checker import broken


@pytest.mark.parametrize("combined", [False, True])
def test_leads_are_cut_and_soldered_before_the_board_is_set_in(
    combined: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    pads = made_up_builds.PHASES.replace("copper: power", "side: under, copper: power")
    monkeypatch.setattr(made_up_builds, "PHASES", pads)
    build = build_of(Choice(combined, False, 4, True, ("receiver", "video"), (), ()))
    plan = compute(build).order
    assert isinstance(plan, Plan)
    assert broken(build, plan) == []
    place, board = {s.id: i for i, s in enumerate(plan.steps)}, "board" if combined else "esc"
    way = [
        "gate A",
        "mount motor.1",
        "trim motor.1",
        "tin motor leads",
        f"solder {board}.M1A",
        f"inspect {board}",
    ]
    steps = [place[s] for s in (*way, f"mount {board}")]
    assert steps == sorted(steps)
    assert "15 to 20 mm to spare" in next(
        told_words(s.text) for s in plan.steps if s.id == "trim motor.1"
    )
