"""Seeded faults: one change of a clean demo build, found by the right rule and by no other. Cases
are in cases/.
"""

from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from builder.pipeline.check import Checked
from builder.rules.find_rules import all_rules
from tests.seeded.seeds import SCORES, Seed, judged_with, seeds, verdict_of

pytestmark = pytest.mark.slow  # takes long

_clean = cache(verdict_of)
BENCH = ("wiring", "power", "fit", "pack", "setup", "bench", "data")


@pytest.mark.parametrize("seed", seeds(), ids=lambda s: s.name)
def test_the_right_rule_finds_it(
    seed: Seed, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    caught = judged_with(seed, tmp_path, _clean(seed.build))
    found = seed.finds in caught.codes
    others = caught.codes - {seed.finds} - seed.companions
    request.config.stash[SCORES].append((seed.finds, found, len(others) + len(caught.mistakes)))
    assert not caught.mistakes, caught.mistakes
    assert found, f"not found; what was found: {sorted(caught.codes)}"
    assert not others, f"unrelated: {sorted(others)}"


def test_the_demo_builds_are_clean(demo: Checked) -> None:
    assert not demo.workspace.findings
    for name, sheet in demo.sheets.items():
        assert sheet.verdict.faults == (), name
        assert all(a.answer != "not judged" or a.not_judged for a in sheet.verdict.answers)
    accepted = [a.finding.code for s in demo.sheets.values() for a in s.verdict.accepted]
    assert accepted == ["pack/discharge-limit"]


def test_what_can_be_mended_at_the_bench_is_silent_on_the_demo_builds(demo: Checked) -> None:
    for name, sheet in demo.sheets.items():
        accepted = {a.finding for a in sheet.verdict.accepted}
        said = [
            f for f in sheet.verdict.findings if f.code.split("/")[0] in BENCH and f not in accepted
        ]
        assert said == [], name


def test_every_rule_is_seeded_in_two_builds() -> None:
    """A rule that no seed shows is a rule that nobody has seen work."""
    places = Counter(code for code, _ in {(s.finds, s.build) for s in seeds()})
    # One demo build has a bus, with one device on it; one carries lights, one a ribbon, and one has
    # a battery without landing volts of its own; tests/rules shows these rules on others.
    only_here = {
        "wiring/bus-address-twice",
        "wiring/lights-out-to-out",
        "wiring/camera-unjoined",
        "fit/ribbon-unlike",
        "setup/landing-missing",
    }
    seeded_once = {r.code for r in all_rules() if places[r.code] < 2}
    assert seeded_once == only_here
