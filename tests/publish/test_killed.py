"""A publish that is killed leaves the old site or the new one. The benchmark job kills two hundred."""

import sys
from pathlib import Path

import pytest

from tests.publish.killed import Counts, kill_many

pytestmark = [
    pytest.mark.slow,  # takes half a minute
    pytest.mark.skipif(
        not sys.platform.startswith("linux"), reason="looks for processes under /proc"
    ),
]


def test_killed_at_random_instants(tmp_path: Path) -> None:
    counts = Counts()
    for now in kill_many(tmp_path, by_clock=3, by_touch=5, seed=3):
        counts = now
    assert counts.wrong == []
    assert counts.old and counts.new, "kills before and after the exchange were both tried"
    assert counts.left_over, "one kill at least left something to clean"
