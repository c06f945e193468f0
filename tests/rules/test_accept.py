"""What is accepted is accepted at one place and up to one figure: a worse one, another battery or
another place is a new finding.
"""

from pathlib import Path
from typing import Any

import pytest

from builder.rules.judge import Verdict
from tests.rules.altered_demo import Tree, case_of, verdict_of

pytestmark = pytest.mark.slow  # takes long

CODE = "pack/discharge-limit"
# Another battery of the same size and marking, as weak as the old one.
LIKE_IT = """
pack-like-it:
  kind: pack
  name: Another one
  mass: 184 g
  chemistry: lithium-polymer
  cells: 6S
  capacity: 1100 mAh
  resistance: 7 mohm
  discharge: 45C
  connector: {type: two-blade 60 A, gender: socket, continuous: 60 A, short: 140 A}
"""


def _with(folder: Path, accept: list[dict[str, str]], **change: Any) -> Verdict:
    def edit(tree: Tree) -> None:
        tree["accept"] = accept
        tree["packs"].update(change)

    return verdict_of(case_of(folder, "redshank", edit, LIKE_IT))


def _entry(**more: str) -> dict[str, str]:
    return {"rule": CODE, "at": "pack-6s-1100-old", "because": "Flown gently.", **more}


def _codes(verdict: Verdict) -> tuple[list[str], list[str]]:
    stale = [f.message for f in verdict.stale_accepts]
    return [f.code for f in verdict.faults], stale


@pytest.mark.parametrize("at", ["pack-6s-1100-old", "packs/old", "packs"])
def test_it_holds_at_its_place_and_up_to_its_figure(tmp_path: Path, at: str) -> None:
    verdict = _with(tmp_path, [_entry(at=at, up_to="90 A")])
    assert _codes(verdict) == ([], [])
    assert [a.finding.code for a in verdict.accepted] == [CODE]


def test_a_worse_figure_is_a_new_finding(tmp_path: Path) -> None:
    # full throttle takes 87.38 A by the demo's own figures
    faults, stale = _codes(_with(tmp_path, [_entry(up_to="87 A")]))
    assert faults == [CODE]
    assert ["another figure than 87.38 A" in s for s in stale] == [True]


def test_the_figure_as_the_finding_says_it_is_taken(tmp_path: Path) -> None:
    assert _codes(_with(tmp_path, [_entry(up_to="87.38 A")])) == ([], [])


def test_without_a_figure_it_covers_no_finding_that_has_one(tmp_path: Path) -> None:
    assert _codes(_with(tmp_path, [_entry()]))[0] == [CODE]


def test_a_figure_of_another_kind_covers_nothing(tmp_path: Path) -> None:
    assert _codes(_with(tmp_path, [_entry(up_to="90 g")]))[0] == [CODE]


def test_less_may_be_what_is_worse(tmp_path: Path) -> None:
    assert _codes(_with(tmp_path, [_entry(down_to="3.2 V")]))[0] == []
    other = tmp_path / "second"
    assert _codes(_with(other, [_entry(down_to="3.3 V")]))[0] == [CODE]


def test_another_battery_under_the_same_name_is_a_new_finding(tmp_path: Path) -> None:
    verdict = _with(tmp_path, [_entry(up_to="200 A")], old={"use": "pack-like-it"})
    assert CODE in _codes(verdict)[0]


def test_another_place_is_not_covered(tmp_path: Path) -> None:
    faults, stale = _codes(_with(tmp_path, [_entry(at="packs/bank", up_to="90 A")]))
    assert faults == [CODE]
    assert ["found elsewhere" in s for s in stale] == [True]


def test_a_remark_can_be_accepted(tmp_path: Path) -> None:
    entry = {"rule": "radio/margin-small", "at": "setup/channel", "because": "Flown near."}
    verdict = _with(tmp_path, [_entry(up_to="90 A"), {**entry, "down_to": "8 dB"}])
    assert "radio/margin-small" in [a.finding.code for a in verdict.accepted]
    assert "radio/margin-small" not in [f.code for f in verdict.remarks]


def test_what_finds_nothing_any_more_is_said(tmp_path: Path) -> None:
    entry = {"rule": "wiring/tx-to-tx", "at": "wires", "because": "It was so."}
    _, stale = _codes(_with(tmp_path, [_entry(up_to="90 A"), entry]))
    assert ["no longer finds anything" in s for s in stale] == [True]
