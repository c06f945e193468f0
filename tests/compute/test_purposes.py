"""Builds are compared by what their batteries are for; the word 'sure' is held against drawing."""

from random import Random
from statistics import NormalDist

import pytest

from builder.compute.compare.difference import Difference, difference_of
from builder.compute.compare.purposes import paired, purposes_of, unused
from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.model.build import Build
from builder.pages.compare.batteries import use_notes
from builder.pages.compare.headline import SURE, UNSURE, headline_table
from builder.pages.compare.rows import TOO_SMALL
from builder.pages.page_text import words
from builder.pipeline.check import Checked
from tests.compute.monte_carlo import again
from tests.compute.small_workspace import workspace

pytestmark = pytest.mark.slow  # draws at random again and again

SHELF = """\
f: {kind: frame, name: F, mass: 80 g}
s: {kind: pack, name: Small, cells: 4S, capacity: 650 mAh, mass: 75 g}
b: {kind: pack, name: Large, cells: 4S, capacity: 850 mAh, mass: 98 g}
u: {kind: pack, name: Unweighed, cells: 4S, capacity: 850 mAh}
"""


def _headline(found: Difference) -> dict[str, list[str]]:
    rows = headline_table(found).rows
    return {r.anchor: [words(c.pieces) for c in r.cells[1:]] for r in rows}


def _builds(shelf: str, **files: str) -> dict[str, Build]:
    return dict(workspace(shelf, files).builds)


def _difference(builds: dict[str, Build], a: str = "a", b: str = "b") -> Difference:
    one, two = builds[a], builds[b]
    return difference_of(one, compute(one), two, compute(two))


def test_batteries_are_matched_by_what_they_are_for_not_by_name() -> None:
    """'x' is the small one in one build and the large one in the other."""
    made = _builds(
        SHELF,
        a="title: A\nparts: {f: f}\npacks: {x: s, y: b}\n",
        b="title: B\nparts: {f: f}\npacks: {x: b, y: s}\n",
    )
    found = _difference(made)
    assert [(u.purposes, u.packs) for u in found.uses] == [(("lightest",), ("x", "y"))]
    (weight,) = found.all_up
    assert isinstance(weight.change, Figure)
    assert weight.change.value == pytest.approx(0.0)
    assert _headline(found)["head-lightest"][0] == "the same"


def test_a_battery_of_unknown_weight_is_not_the_lightest_and_that_is_said() -> None:
    build = _builds(SHELF, a="title: A\nparts: {f: f}\npacks: {none: u, small: s}\n")["a"]
    results = compute(build)
    lightest = purposes_of(build, results)[0]
    assert (lightest.pack, lightest.not_known) == ("small", ("none",))
    said = use_notes(build, results)
    assert any("none of a: its weight is not known" in note for note in said)
    assert "a has no logged flight, so nothing is compared as flown." in said
    assert "Battery none of a serves none of these." in said


def test_as_flown_is_the_battery_of_most_flights_then_of_the_last() -> None:
    days = ((1, "s", ""), (2, "b", ""), (3, "b", ", leave_out: yes"), (4, "s", ""))
    each = (f"{{date: 2026-05-0{d}, pack: {p}, airborne: 4 min{more}}}" for d, p, more in days)
    flights = f"flights: [{', '.join(each)}]\n"
    files = {
        "a": f"title: A\nparts: {{f: f}}\npacks: {{s: s, b: b}}\n{flights}",
        "b": "title: B\nparts: {f: f}\npacks: {s: s, b: b}\n"
        "flights: [{date: 2026-05-01, pack: s, airborne: 4 min},"
        " {date: 2026-05-02, pack: b, airborne: 4 min}]\n",
    }
    made = _builds(SHELF, **files)
    uses = {n: purposes_of(b, compute(b)) for n, b in made.items()}
    assert uses["a"][2].pack == "s"
    assert uses["b"][2].pack == "b", "as many of each: the last"


def test_every_ordered_pair_of_the_demo_compares_the_same_batteries(demo: Checked) -> None:
    for one in demo.sheets.values():
        for two in demo.sheets.values():
            first, second = (purposes_of(s.build, s.results) for s in (one, two))
            there, back = paired(first, second), paired(second, first)
            assert [(u.purposes, u.packs[::-1]) for u in there] == [
                (u.purposes, u.packs) for u in back
            ]
            assert there, "of every pair something is subtracted"
            said = " ".join(use_notes(one.build, one.results))
            for pack in unused(one.build, first):
                assert f"Battery {pack} of" in said


@pytest.mark.parametrize("spreads", [2.25, 1.9, -2.25, -1.9])
def test_sure_is_said_from_two_spreads_on_as_drawing_has_it(spreads: float) -> None:
    """JCGM 101:2008, each leaf drawn for both builds: beyond two spreads the sign holds in more than
    Φ(2) = 97.7 % of draws (normal distribution, ISO 3534-1), below it in fewer.
    """
    grams = 100.0 + spreads * 5.0
    shelf = (
        "one: {kind: frame, name: One, mass: {maker: 100 ± 3 g}}\n"
        f"two: {{kind: frame, name: Two, mass: {{maker: {grams:.2f} ± 4 g}}}}\n"
    )
    made = _builds(shelf, a="title: A\nparts: {frame: one}\n", b="title: B\nparts: {frame: two}\n")
    found = _difference(made)
    first, second = found.dry.first, found.dry.second
    assert isinstance(first, Figure) and isinstance(second, Figure)
    random, holds = Random(4), 0
    leaves = [n for f in (first, second) for n in f.derivation if n.formula is None]
    for _ in range(20_000):
        draw = {n.key: random.gauss(n.value, n.own) for n in leaves}
        less = again(second, draw, random) - again(first, draw, random)
        holds += (less > 0) == (spreads > 0)
    answer, _, sure = _headline(found)["head-dry"]
    beyond = holds / 20_000 > NormalDist().cdf(2.0)
    lighter = "a" if spreads > 0 else "b"
    assert (answer, sure) == ((lighter, SURE) if beyond else (TOO_SMALL, UNSURE))
    assert beyond == (abs(spreads) > 2.0)


@pytest.mark.parametrize(
    ("one", "two", "answer", "by", "sure"),
    [
        ("30 EUR", "20 EUR", "b", "10.00 EUR", "yes"),
        ("30 EUR", "30 EUR", "the same", "", ""),
        ("30 EUR", "", "not known", "", ""),
    ],
)
def test_cheaper_is_sure_only_where_prices_are_known(
    one: str, two: str, answer: str, by: str, sure: str
) -> None:
    def part(name: str, price: str) -> str:
        words = f", price: {price}" if price else ""
        return f"{name}: {{kind: frame, name: {name.upper()}, mass: 9 g{words}}}\n"

    files = {n: f"title: T\nparts: {{frame: {n}}}\n" for n in "ab"}
    found = _difference(_builds(part("a", one) + part("b", two), **files))
    assert _headline(found)["head-cost"] == [answer, by, sure]


def test_the_dearer_one_without_a_price_makes_the_other_cheaper_by_at_least_so_much() -> None:
    shelf = (
        "x: {kind: frame, name: X, mass: 9 g, price: 20 EUR}\n"
        "y: {kind: frame, name: Y, mass: 9 g, price: 50 EUR}\n"
        "z: {kind: camera, name: Z, mass: 9 g}\n"
    )
    made = _builds(shelf, a="title: A\nparts: {f: x}\n", b="title: B\nparts: {f: y, camera: z}\n")
    assert _headline(_difference(made))["head-cost"] == ["a", "at least 30.00 EUR", "yes"]
    assert _headline(_difference(made, "b", "a"))["head-cost"] == ["a", "at least 30.00 EUR", "yes"]
