"""A number written wrong anywhere in the demo's sources: a page, or a message with a place; never
an error inside.

`BENCHLEAF_LONG=1` takes every number in each way, and ten thousand random slips; the ordinary run a
sample of both.
"""

import os
import random
from collections import Counter
from collections.abc import Iterable

import pytest

from tests.hostile.slips import Demo, Depth, Slip, all_slips, random_slips

pytestmark = pytest.mark.slow  # takes long

LONG = bool(os.environ.get("BENCHLEAF_LONG"))
SAMPLE, RANDOM = (10**6, 10_000) if LONG else (200, 200)


@pytest.fixture(scope="module")
def demo() -> Demo:
    return Demo()


def _depth(i: int) -> Depth:
    """Some are followed to the last page, in the ordinary run few: drawing takes longest."""
    if i % (10 if LONG else 60) == 0:
        return "all"
    return "drawn" if LONG or i % 6 == 0 else "judged"


def _fates(demo: Demo, slips: Iterable[Slip]) -> Counter[str]:
    return Counter(demo.fate(changed, _depth(i)) for i, changed in enumerate(slips))


def test_every_number_in_every_way_is_said_or_drawn(demo: Demo) -> None:
    slips = list(all_slips(demo.documents))
    assert len(slips) > 15_000
    random.Random(1).shuffle(slips)
    fates = _fates(demo, slips[:SAMPLE])
    print(f"\n{len(slips[:SAMPLE])} of {len(slips)} slips: {dict(fates)}")
    assert fates["said"] > 50 and sum(fates.values()) - fates["said"] > 50


def test_random_slips_are_said_or_drawn(demo: Demo) -> None:
    endless = random_slips(demo.documents, seed=2026)
    fates = _fates(demo, (next(endless) for _ in range(RANDOM)))
    print(f"\n{sum(fates.values())} random slips: {dict(fates)}")
    assert fates["said"] > 50 and sum(fates.values()) - fates["said"] > 50
