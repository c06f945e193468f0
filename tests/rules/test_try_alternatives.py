"""An alternative part is tried by computing and judging the whole build with it."""

import pytest

from builder.compute.compare.alternatives import MOST
from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.rules.judge import judge
from builder.rules.rule import Case
from builder.rules.try_alternatives import Alternatives, try_alternatives
from tests.compute.small_workspace import one_build

BOARD = (
    "board: {kind: flight-controller, name: Board, mass: 7 g, pads: {5V: {role: supply, rail: 5V}}}"
)
CAMERA = "pads: {V: {role: draws, accepts: 4-6 V}}"


def _tried(shelf: str, wires: str = "", weighed: str = "") -> Alternatives:
    site = "title: T\nlimits: [{name: limit, mass: 20 g}]"
    build = one_build(
        shelf, f"title: T\nparts: {{board: board, camera: one}}\n{wires}\n{weighed}", site
    )
    results = compute(build)
    return try_alternatives(build, results, judge(Case(build, results)))


def _shelf(other: str) -> str:
    one = (
        "one: {kind: camera, name: One, mass: 6 g, price: 20.00 EUR, alternatives: [two],"
        f" {CAMERA}}}"
    )
    return f"{BOARD}\n{one}\ntwo: {{kind: camera, name: Two, mass: 4 g, price: 26.50 EUR, {other}}}"


WIRE = "wires: [{from: camera.V, to: board.5V, gauge: 28 AWG, length: 50 mm}]"


def test_grams_money_and_margin() -> None:
    (tried,) = _tried(_shelf(CAMERA), WIRE).tried
    assert isinstance(tried.mass_change, Figure)
    assert tried.mass_change.value == pytest.approx(-0.002)
    assert isinstance(tried.price_change, Figure)
    assert tried.price_change.value == pytest.approx(6.50)
    assert tried.margins == (), "without a pack there is no all-up weight to compare"
    assert not tried.lost_joins


def test_an_alternative_that_breaks_the_wiring_says_so() -> None:
    (tried,) = _tried(_shelf("pads: {VCC: {role: draws, accepts: 4-6 V}}"), WIRE).tried
    assert tried.breaks
    assert tried.lost_joins == ("wire camera.V to board.5V",)


def test_the_scale_is_believed_for_what_is_not_swapped() -> None:
    """A reading of the whole stays the ground; only the difference of the two parts is added to it."""
    shelf = _shelf(CAMERA) + "\np: {kind: pack, name: P, mass: 5 g}"
    build = one_build(
        shelf,
        "title: T\nparts: {board: board, camera: one}\npacks: {p: p}\nweighed: [{what: p, mass:"
        " 21.0 g}]",
        "title: T\nlimits: [{name: limit, mass: 20 g}]",
    )
    results = compute(build)
    (tried,) = try_alternatives(build, results, judge(Case(build, results))).tried
    ((limit, pack, left, keeps),) = tried.margins
    assert (limit, pack, keeps) == ("limit", "p", True)
    # The parts pull the reading by a few hundredths of a gram, as the least squares weigh both.
    assert isinstance(left, Figure) and left.value == pytest.approx(0.020 - 0.019, abs=1e-4)
    assert results.margins[0].within is False
    assert [w.label for w in results.margins[0].ways] == ["Two"]


def test_the_number_tried_is_bounded_and_the_rest_is_counted() -> None:
    names = [f"c{i}" for i in range(MOST + 3)]
    others = "\n".join(f"{n}: {{kind: camera, name: {n}, mass: 4 g}}" for n in names)
    one = f"one: {{kind: camera, name: One, mass: 6 g, alternatives: [{', '.join(names)}]}}"
    found = _tried(f"{BOARD}\n{one}\n{others}")
    assert (len(found.tried), found.left_out) == (MOST, 3)


def test_a_part_without_alternatives_tries_none() -> None:
    found = _tried(f"{BOARD}\none: {{kind: camera, name: One}}")
    assert (found.tried, found.left_out) == ((), 0)


def test_a_fact_that_lacks_with_the_other_part_is_not_known_and_no_pass() -> None:
    board = (
        "board: {kind: flight-controller, name: Board, mass: 7 g, rails: {5V: {volts: 5 V, limit: 1"
        " A}}, "
    )
    board += "pads: {5V: {role: supply, rail: 5V}}}"
    shelf = _shelf("pads: {V: {role: draws}}").replace(BOARD, board)
    (tried,) = _tried(shelf, WIRE).tried
    assert (tried.answer, tried.breaks) == ("not known", False)
    assert "volts that camera accepts" in tried.lacking


def test_a_part_that_nothing_would_feed_breaks() -> None:
    (tried,) = _tried(
        _shelf("pads: {V: {role: sends}, 5V: {role: draws, accepts: 4-6 V}}"), WIRE
    ).tried
    assert (tried.answer, tried.unfed) == ("no", ("nothing feeds camera.5V",))


@pytest.mark.parametrize(
    ("of_two", "answer", "lacking"),
    [
        ("kind: hardware, form: strap, width: 12 mm", "not known", True),
        ("kind: hardware, form: nut, thread: M2", "not known", True),
        ("kind: hardware, form: screw, thread: M3, length: 6 mm", "not known", True),
        ("kind: hardware", "not known", True),
        ("kind: hardware, form: screw, thread: M2, length: 6 mm", "yes", False),
        ("kind: other", "not known", True),
    ],
)
def test_what_does_something_else_is_never_a_yes(of_two: str, answer: str, lacking: bool) -> None:
    """A strap holds nothing that a screw holds, a nut has the other half of the thread (ISO 261, ISO
    4032 and 4762, from memory): where no word says that it does the same, that is not known.
    """
    screw = "one: {kind: hardware, name: Screw, form: screw, thread: M2, length: 8 mm, mass: 0.2 g"
    shelf = f"{screw}, alternatives: [two]}}\ntwo: {{name: Two, mass: 0.1 g, {of_two}}}"
    build = one_build(shelf, "title: T\nparts: {screw: one}")
    results = compute(build)
    (tried,) = try_alternatives(build, results, judge(Case(build, results))).tried
    assert tried.answer == answer
    assert ("whether Two does what Screw does" in tried.lacking) == lacking
