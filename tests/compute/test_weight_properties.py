"""What must hold for any parts: order, split counts and units change no total; an empty variant
equals its base.
"""

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.compute.compute import compute
from builder.pages.tables.variant import differences
from tests.compute.small_workspace import one_build, workspace

pytestmark = pytest.mark.slow  # draws at random again and again

UNITS = {"g": 1e-3, "kg": 1.0, "oz": 0.028349523125, "lb": 0.45359237}  # NIST SP 811, appendix B.8
MASSES = st.lists(st.tuples(st.integers(1, 5000), st.integers(1, 6)), min_size=1, max_size=6)


def _shelf(masses: list[tuple[int, int]], unit: str = "g") -> str:
    texts = [f"{m / 10 * 1e-3 / UNITS[unit]!r} {unit}" for m, _ in masses]
    return "\n".join(f"p{i}: {{kind: other, name: P{i}, mass: {t}}}" for i, t in enumerate(texts))


def _build(order: list[tuple[int, int, int]]) -> str:
    """Parts as (place in the list, part, count)."""
    rows = "\n".join(
        f"  q{place}: {{use: p{part}, count: {count}}}" for place, part, count in order
    )
    return f"title: T\nparts:\n{rows}\n"


@settings(max_examples=25, deadline=None)
@given(MASSES, st.randoms(use_true_random=False))
def test_parts_in_any_order(masses: list[tuple[int, int]], random: Random) -> None:
    order = [(i, i, n) for i, (_, n) in enumerate(masses)]
    mixed = list(order)
    random.shuffle(mixed)
    one, other = (compute(one_build(_shelf(masses), _build(o))).mass.dry for o in (order, mixed))
    assert one.value == pytest.approx(other.value, rel=1e-12)
    assert one.spread == pytest.approx(other.spread, rel=1e-12)


@settings(max_examples=25, deadline=None)
@given(MASSES, st.data())
def test_split_or_merged_counts(masses: list[tuple[int, int]], data: st.DataObject) -> None:
    """Four pieces on one line weigh, and spread, as one and three on two lines do."""
    merged = [(i, i, n) for i, (_, n) in enumerate(masses)]
    split: list[tuple[int, int, int]] = []
    for i, (_, n) in enumerate(masses):
        first = data.draw(st.integers(0, n))
        split += [(10 * i + k, i, c) for k, c in enumerate((first, n - first)) if c]
    one, other = (compute(one_build(_shelf(masses), _build(o))).mass.dry for o in (merged, split))
    assert one.value == pytest.approx(other.value, rel=1e-12)
    assert one.spread == pytest.approx(other.spread, rel=1e-9)


@settings(max_examples=25, deadline=None)
@given(MASSES, st.sampled_from(sorted(UNITS)))
def test_units_change_nothing(masses: list[tuple[int, int]], unit: str) -> None:
    order = [(i, i, n) for i, (_, n) in enumerate(masses)]
    one, other = (
        compute(one_build(_shelf(masses, u), _build(order))).mass.dry for u in ("g", unit)
    )
    assert one.value == pytest.approx(other.value, rel=1e-12)
    assert one.spread == pytest.approx(other.spread, rel=1e-9)


@settings(max_examples=15, deadline=None)
@given(MASSES, st.integers(1, 3))
def test_a_variant_that_changes_nothing_equals_its_base(
    masses: list[tuple[int, int]], depth: int
) -> None:
    base = _build([(i, i, n) for i, (_, n) in enumerate(masses)])
    builds = {"v0": base} | {
        f"v{d}": f"title: V\nbased_on: v{d - 1}\n" for d in range(1, depth + 1)
    }
    made = workspace(_shelf(masses), builds).builds
    one, other = compute(made["v0"]), compute(made[f"v{depth}"])
    assert one.mass.dry.value == other.mass.dry.value
    assert one.mass.dry.spread == other.mass.dry.spread
    assert one.budget.this_build == other.budget.this_build
    assert made[f"v{depth}"].chain == tuple(f"v{d}" for d in range(depth, -1, -1))
    assert differences(made[f"v{depth}"]) == ()


def test_what_a_variant_measured_never_leaks_back_and_the_bases_reading_is_carried_over() -> None:
    """A variant is the same aircraft: what the scale said of the base holds for it until it lies
    on the scale itself.
    """
    shelf = "f: {kind: frame, name: F, mass: 100 g}"
    weighed = "title: T\nparts: {f: f}\nweighed: [{what: dry, mass: %s}]\n"
    made = workspace(
        shelf,
        {
            "a": weighed % "101.00 g",
            "b": "title: B\nbased_on: a\n",
            "c": "title: C\nbased_on: b\nweighed: [{what: dry, mass: 99.00 g}]\n",
        },
    ).builds
    dry = {n: round(1000 * compute(b).mass.dry.value, 2) for n, b in made.items()}
    assert dry == {"a": 101.0, "b": 101.0, "c": 99.0}


def test_a_variant_says_what_differs() -> None:
    shelf = "f: {kind: frame, name: F, mass: 100 g}\ng: {kind: frame, name: G, mass: 90 g}"
    made = workspace(
        shelf,
        {"a": "title: T\nparts: {f: f}\n", "b": "title: B\nbased_on: a\nparts: {f: {use: g}}\n"},
    )
    assert differences(made.builds["b"]) == (("parts, f", "use g"),)
