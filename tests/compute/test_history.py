"""Incidents and maintenance: what they cost, and what they did to a weight that was read on the
scale before.
"""

import pytest

from builder.compute.compute import compute
from builder.compute.results import Results
from tests.compute.small_workspace import one_build

SHELF = """
frame: {kind: frame, name: Frame, mass: {measured: 100.0 g}}
pack: {kind: pack, name: Pack, cells: 4S, capacity: 850 mAh, mass: {measured: 90.0 g}}
"""
SITE = "title: T\ncurrency: EUR\nrates: [{from: USD, to: EUR, rate: 0.9, dated: 2026-01-01}]"
BUILD = """title: T
parts: {frame: frame}
packs: {pack: pack}
weighed: [{what: dry, mass: 101.0 g, scale: 0.1 g%s}]
incidents:
  - {date: 2026-03-10, what: Hit a post., replaced: [frame], cost: 12.50 EUR, mass: +0.6 g}
  - {date: 2026-03-01, what: Landed hard.}
maintenance:
  - {date: 2026-03-20, what: New strap., flights: 12, cost: 2.00 USD, mass: -0.2 g}
"""


def mended(weighed_on: str) -> Results:
    return compute(one_build(SHELF, BUILD % (f", date: {weighed_on}" if weighed_on else ""), SITE))


@pytest.mark.parametrize(
    ("weighed_on", "dry"),
    [("2026-02-01", 101.4), ("2026-03-15", 100.8), ("2026-04-01", 101.0), ("", 101.0)],
)
def test_weight_holds_what_was_mended_after_the_weighing(weighed_on: str, dry: float) -> None:
    """A day without which nobody knows the order counts nothing; the page says so."""
    mass = mended(weighed_on).mass
    assert mass.dry.value * 1000 == pytest.approx(dry, abs=0.06)  # the parts pull a little
    assert mass.all_up["pack"].value * 1000 == pytest.approx(dry + 90, abs=0.06)


def test_the_history_sums_money_and_weight_in_order_of_date() -> None:
    found = mended("2026-02-01").history
    assert [e.on.isoformat() for e in found.events] == ["2026-03-01", "2026-03-10", "2026-03-20"]
    assert [e.broke for e in found.events] == [True, True, False]
    assert found.spent.value == pytest.approx(12.50 + 2.00 * 0.9)
    assert found.mass.value * 1000 == pytest.approx(0.4)
    assert found.events[0].cost is None and found.events[0].mass is None
