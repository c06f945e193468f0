"""Two builds side by side: what must hold for any pair, a worked case of the trade, and the spread
by Monte Carlo.
"""

from itertools import combinations
from random import Random
from statistics import stdev

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.compute.compare.difference import Difference, difference_of
from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.model.values.money_text import Money
from builder.pages.tables.verdict_line import verdict_line
from builder.pipeline.check import Checked
from tests.compute.monte_carlo import again
from tests.compute.small_workspace import workspace

pytestmark = pytest.mark.slow  # draws at random again and again

# Grams, count and place of each part; a place may be missing from either build.
PARTS = st.lists(
    st.tuples(st.integers(1, 5000), st.integers(1, 6), st.integers(0, 8)), min_size=1, max_size=6
)
READING = st.one_of(st.none(), st.integers(200, 3000))


def _text(parts: list[tuple[int, int, int]], offset: int, reading: int | None) -> str:
    rows = {
        place: f"  q{place}: {{use: p{offset + i}, count: {n}}}"
        for i, (_, n, place) in enumerate(parts)
    }
    weighed = f"weighed: [{{what: dry, mass: {reading / 10} g}}]\n" if reading is not None else ""
    return "title: T\nparts:\n" + "\n".join(rows.values()) + "\n" + weighed


def _both(
    a: list[tuple[int, int, int]],
    b: list[tuple[int, int, int]],
    ra: int | None = None,
    rb: int | None = None,
) -> tuple[Difference, Difference]:
    shelf = "\n".join(
        f"p{i}: {{kind: other, name: P{i}, mass: {m / 10} g}}"
        for i, (m, _, _) in enumerate([*a, *b])
    )
    made = workspace(shelf, {"a": _text(a, 0, ra), "b": _text(b, len(a), rb)}).builds
    one, two = compute(made["a"]), compute(made["b"])
    return difference_of(made["a"], one, made["b"], two), difference_of(
        made["b"], two, made["a"], one
    )


def _value(figure: object) -> float:
    assert isinstance(figure, Figure)
    return figure.value


@settings(max_examples=25, deadline=None)
@given(PARTS, PARTS, READING, READING)
def test_grams_of_the_rows_add_up_to_the_difference_of_the_totals(
    a: list[tuple[int, int, int]], b: list[tuple[int, int, int]], ra: int | None, rb: int | None
) -> None:
    found, _ = _both(a, b, ra, rb)
    rows = sum(_value(p.grams) for p in found.parts if p.grams is not None)
    assert rows == pytest.approx(_value(found.dry.change), abs=1e-12)


@settings(max_examples=25, deadline=None)
@given(PARTS, PARTS, READING, READING)
def test_swapping_the_builds_flips_every_sign_and_nothing_else(
    a: list[tuple[int, int, int]], b: list[tuple[int, int, int]], ra: int | None, rb: int | None
) -> None:
    there, back = _both(a, b, ra, rb)
    _flips(there, back)


def _flips(there: Difference, back: Difference) -> None:
    turned = {"added": "dropped", "dropped": "added"}
    rows = {p.keys[::-1]: p for p in back.parts}
    assert {p.keys for p in there.parts} == set(rows)
    for part in there.parts:
        other = rows[part.keys]
        assert turned.get(part.how, part.how) == other.how
        assert (part.first, part.second) == (other.second, other.first)
        if part.grams is not None:
            assert _value(part.grams) == -_value(other.grams)
        if isinstance(part.money, Money) and isinstance(other.money, Money):
            assert part.money.minor == -other.money.minor
        else:
            assert type(part.money) is type(other.money)
    for one, two in zip(
        (there.dry, *there.all_up, *there.flight),
        sorted((back.dry, *back.all_up, *back.flight), key=_order_of(there)),
        strict=True,
    ):
        assert one.key == two.key
        assert _value(one.change) == -_value(two.change)
        assert _spread(one.change) == pytest.approx(_spread(two.change), rel=1e-9)
    assert {(c.ends, c.nets, c.first, c.second) for c in there.wiring} == {
        (c.ends, c.nets[::-1], c.second, c.first) for c in back.wiring
    }
    assert {(s.id, s.first, s.second, s.moved) for s in there.order} == {
        (s.id, s.second, s.first, s.moved) for s in back.order
    }
    for ours, theirs in ((there.plugs, back.plugs), (there.setup, back.setup)):
        assert {(x.text, x.first, x.second) for x in ours} == {
            (x.text, x.second, x.first) for x in theirs
        }


def _order_of(there: Difference):  # type: ignore[no-untyped-def]  # a key for sorted
    order = [p.key for p in (there.dry, *there.all_up, *there.flight)]
    return lambda pair: order.index(pair.key)


def _spread(figure: object) -> float:
    assert isinstance(figure, Figure)
    return figure.spread


def test_every_pair_of_the_demo_builds_flips_and_adds_up(demo: Checked) -> None:
    for first, second in combinations(demo.sheets.values(), 2):
        a = difference_of(first.build, first.results, second.build, second.results)
        _flips(a, difference_of(second.build, second.results, first.build, first.results))
        rows = sum(_value(p.grams) for p in a.parts if p.grams is not None)
        assert rows == pytest.approx(_value(a.dry.change), abs=1e-12)


def test_a_build_beside_itself_shows_no_difference(demo: Checked) -> None:
    for sheet in demo.sheets.values():
        same = difference_of(sheet.build, sheet.results, sheet.build, sheet.results)
        assert not any(p.differs for p in same.parts)
        for pair in (same.dry, *same.all_up, *same.flight):
            assert (_value(pair.change), pair.real) == (0.0, False)
            assert _spread(pair.change) == pytest.approx(0.0, abs=1e-12)
        assert not any(x.differs for x in same.wiring)
        assert not any(x.differs for x in same.order)
        assert not any(x.differs for x in (*same.plugs, *same.setup))
        assert same.wiring
        assert same.order
        assert (same.conversion.buy, same.conversion.left_over, same.conversion.money.minor) == (
            (),
            (),
            0,
        )


def test_the_spread_of_a_difference_is_what_monte_carlo_gives_when_parts_are_shared() -> None:
    """JCGM 101:2008, propagation of distributions by drawing: within 3 %; independent totals would
    be far wider.
    """
    shelf = """\
shared: {kind: frame, name: Shared, mass: {maker: 90 ± 4 g}}
one: {kind: motor, name: One, mass: {maker: 15 ± 0.5 g}}
two: {kind: motor, name: Two, mass: {maker: 10 ± 0.4 g}}
"""
    text = "title: T\nparts: {frame: shared, motor: {use: %s, count: 4}}\n"
    made = workspace(shelf, {"a": text % "one", "b": text % "two"}).builds
    a, b = compute(made["a"]), compute(made["b"])
    change = difference_of(made["a"], a, made["b"], b).dry.change
    assert isinstance(change, Figure)
    random = Random(8)
    drawn = []
    for _ in range(20_000):  # the standard deviation of so many is known to 0.5 %
        draw: dict[str, float] = {}
        drawn.append(again(b.mass.dry, draw, random) - again(a.mass.dry, draw, random))
    assert change.spread == pytest.approx(stdev(drawn), rel=0.03)
    assert change.spread < 0.75 * (a.mass.dry.spread**2 + b.mass.dry.spread**2) ** 0.5


def test_the_lighter_motors_of_a_3_inch_build_are_named_in_the_first_line() -> None:
    """198 g and 171 g with motors of 15 g and 10 g: 27 g, of which the motors are 20 g (common
    practice, no source).
    """
    shelf = """\
heavy-frame: {kind: frame, name: Heavy, mass: 138 ± 0.1 g}
light-frame: {kind: frame, name: Light, mass: 131 ± 0.1 g}
heavy-motor: {kind: motor, name: Strong, mass: 15 ± 0.05 g}
light-motor: {kind: motor, name: Small, mass: 10 ± 0.05 g}
"""
    text = "title: T\nstatus: flying\nparts: {frame: %s-frame, motor: {use: %s-motor, count: 4}}\n"
    made = workspace(
        shelf, {"heavy": text % ("heavy", "heavy"), "light": text % ("light", "light")}
    ).builds
    found = difference_of(
        made["heavy"], compute(made["heavy"]), made["light"], compute(made["light"])
    )
    words = verdict_line(found, made["heavy"], made["light"])
    assert words.startswith("Light is 27.0 g lighter dry, of which motor 20.0 g (4 × 5.0 g)")
    assert "27.0 g heavier dry, of which motor 20.0 g" in verdict_line(
        difference_of(made["light"], compute(made["light"]), made["heavy"], compute(made["heavy"])),
        made["light"],
        made["heavy"],
    )


def test_parts_are_matched_by_role_and_then_by_kind() -> None:
    shelf = (
        "f: {kind: frame, name: F, mass: 60 g}\nm: {kind: motor, name: M, mass: 9 g}\nn: {kind:"
        " motor, name: N, mass: 8 g}"
    )
    made = workspace(
        shelf,
        {
            "a": "title: A\nparts: {frame: f, motor: {use: m, count: 4}}\n",
            "b": "title: B\nparts: {frame: f, engine: {use: n, count: 4}}\n",
        },
    ).builds
    found = difference_of(made["a"], compute(made["a"]), made["b"], compute(made["b"]))
    rows = {p.key: p.how for p in found.parts if p.differs}
    assert rows == {"motor, engine": "swapped"}


def test_turning_one_into_the_other_costs_what_is_bought_not_the_difference_of_totals() -> None:
    """Four motors at 12 EUR in place of four at 14: the totals differ by -8 EUR, yet 48 EUR have to
    be paid.
    """
    shelf = """\
f: {kind: frame, name: F, mass: 60 g, price: {each: 30 EUR}}
m: {kind: motor, name: M, mass: 9 g, price: {each: 14 EUR}}
n: {kind: motor, name: N, mass: 8 g, price: {each: 12 EUR}}
s: {kind: hardware, name: S, mass: 0.1 g, price: {pack: 2 EUR, sold_in: 10}}
"""
    text = "title: T\nparts: {frame: f, motor: {use: %s, count: 4}, screws: {use: s, count: %d}}\n"
    made = workspace(shelf, {"a": text % ("m", 4), "b": text % ("n", 15)}).builds
    found = difference_of(made["a"], compute(made["a"]), made["b"], compute(made["b"]))
    assert found.price[1].minor - found.price[0].minor == -800 + 220
    assert {p.shelf: (p.needed, p.bought) for p in found.conversion.buy} == {
        "n": (4, 4),
        "s": (11, 20),
    }
    assert found.conversion.money.minor == 4800 + 400
    assert found.conversion.left_over == (("M", 4),)
    assert found.conversion.keep == (("F", 1), ("S", 4))
