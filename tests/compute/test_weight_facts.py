"""Facts of the trade about weight. Unless another source stands beside a check: common practice, no
source.
"""

from math import sqrt

import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.compute.results import Results
from builder.compute.weight.limits import is_within
from builder.compute.weight.wire_mass import copper_area
from builder.model.values.measures import Gauge
from tests.compute.small_workspace import one_build

LIMITS = """
title: Test
limits:
  - {name: 250 g, mass: 250 g, strict: yes}
  - {name: 0.55 lb, mass: 0.55 lb, strict: no}
"""


def _results(dry: str, pack: str, extra: str = "") -> Results:
    shelf = f"""
frame: {{kind: frame, name: Frame, mass: {{measured: {dry}, scale: 0.1 g}}}}
cells: {{kind: pack, name: Cells, cells: 4S, mass: {{measured: {pack}, scale: 0.1 g}}}}
{extra}
"""
    return compute(
        one_build(shelf, "title: T\nparts: {frame: frame}\npacks: {only: cells}\n", LIMITS)
    )


@pytest.mark.parametrize(
    ("dry", "pack", "grams", "left", "within"),
    [("198 g", "72 g", 270.0, -20.0, False), ("171 g", "74 g", 245.0, 5.0, True)],
)
def test_dry_and_pack_against_250_g(
    dry: str, pack: str, grams: float, left: float, within: bool
) -> None:
    """198 g dry and a 72 g pack are 20 g over 250 g; 171 g and 74 g are 5 g under (common practice,
    no source).
    """
    results = _results(dry, pack)
    margin = results.margins[0]
    assert results.mass.all_up["only"].value == pytest.approx(grams / 1000)
    assert isinstance(margin.left, Figure)
    assert margin.left.value == pytest.approx(left / 1000)
    assert margin.within is within


def test_the_tool_names_the_pack_that_brings_it_under() -> None:
    results = _results(
        "198 g", "72 g", "light: {kind: pack, name: Light, cells: 4S, mass: {measured: 45 g}}"
    )
    assert [(w.label, w.pack) for w in results.margins[0].ways] == [("Light", True)]
    assert results.margins[0].ways[0].becomes.value == pytest.approx(0.243)


@pytest.mark.parametrize(
    ("one", "other", "change"), [("16 g", "11 g", 20.0), ("14.3 g", "16.5 g", -8.8)]
)
def test_four_motors_against_four_others(one: str, other: str, change: float) -> None:
    """Four of 16 g for 11 g add 20 g; four of 14.3 g for 16.5 g save 8.8 g (common practice, no
    source).
    """

    def dry(mass: str) -> float:
        shelf = f"motor: {{kind: motor, name: Motor, mass: {mass}}}"
        return compute(
            one_build(shelf, "title: T\nparts: {motor: {use: motor, count: 4}}\n")
        ).mass.dry.value

    assert 1000 * (dry(one) - dry(other)) == pytest.approx(change)


def test_249_6_g_passes_one_limit_and_fails_the_other() -> None:
    """0.55 lb is 249.4758 g (NIST SP 811, B.8: 1 lb = 0.45359237 kg), so 249.6 g keeps 250 g and
    not 0.55 lb.
    """
    results = _results("177.6 g", "72 g")
    assert [m.within for m in results.margins] == [True, False]
    assert results.margins[1].bound.value == pytest.approx(0.55 * 0.45359237, rel=1e-12)


def test_exactly_the_limit_is_not_less_than_it() -> None:
    results = _results("178 g", "72 g")
    assert results.margins[0].within is False
    assert is_within(0.25, 0.25, strict=False)
    assert is_within(0.1 + 0.2, 0.3, strict=False), "the dust of adding floats is no overweight"


@pytest.mark.parametrize(
    ("written", "resolution", "step"),
    [
        ("60 g", "1 g", 1.0),
        ("60.0 g", "0.1 g", 0.1),
        ("60 g", "0.1 g", 1.0),
        ("60.0 g", "2 g", 2.0),
    ],
)
def test_a_reading_carries_its_digits_and_what_its_scale_repeats(
    written: str, resolution: str, step: float
) -> None:
    """A reading to within d has a standard deviation of d/sqrt(12) (JCGM 100:2008, F.2.2.1), a
    scale repeats to a digit and is set to 0.1 % (both from memory). 60 g is not 60.0 g.
    """
    mass = f"{{measured: {written}, scale: {resolution}}}"
    shelf = f"frame: {{kind: frame, name: Frame, mass: {mass}}}"
    build = one_build(shelf, "title: T\nparts: {frame: frame}\n")
    due = sqrt(step**2 / 12 + step**2 + 0.06**2)
    assert 1000 * compute(build).mass.dry_sum.spread == pytest.approx(due)


def test_makers_share_is_one_error_and_scatter_is_many() -> None:
    """n pieces: the maker's share counts n times, scatter the square root of n times (JCGM
    100:2008, 5.2.2).
    """
    site = "title: T\nspreads: {maker_mass: 3 %, piece_scatter: 1 %}"
    build = one_build(
        "m: {kind: motor, name: M, mass: 10 g}", "title: T\nparts: {m: {use: m, count: 4}}", site
    )
    found = compute(build).mass.dry_sum.spread
    assert 1000 * found == pytest.approx(sqrt((4 * 0.3) ** 2 + 4 * 0.1**2))


def test_trimming_twelve_leads_takes_off_3_9_g_of_copper() -> None:
    """12 x 70 mm of 20 AWG: 0.518 mm² (ASTM B258) of 8.89 g/cm³ (IEC 60028, from memory) are 3.9 g."""
    grams = 12 * 0.070 * copper_area(Gauge(20, None)) * 8890 * 1000
    assert round(grams, 1) == 3.9
    shelf = """
m:
  kind: motor
  name: M
  mass: 10 g
  mass_with: leads
  leads: {count: 3, gauge: 20 AWG, length: 100 mm, names: [A, B, C]}
  pads: {A: {role: phase}, B: {role: phase}, C: {role: phase}}
esc: {kind: speed-controller, name: E, mass: 5 g, pads: {P: {role: drive-out, takes: 12}}}
"""
    wires = "\n".join(
        f"  - {{from: m.{n}.{p}, to: esc.P, lead: fitted, trim_to: 30 mm}}"
        for n in (1, 2, 3, 4)
        for p in "ABC"
    )
    mass = compute(
        one_build(
            shelf, f"title: T\nparts: {{m: {{use: m, count: 4}}, esc: esc}}\nwires:\n{wires}\n"
        )
    ).mass
    line = next(x.line for x in mass.lines if x.key == "wiring/wires")
    assert isinstance(line, Figure)
    assert -1000 * line.value > grams, "the cover comes off as well as the copper"
    assert -1000 * line.value < 2 * grams


def test_leads_that_the_maker_fitted_are_not_counted_twice() -> None:
    shelf = """
m: {kind: motor, name: M, mass: 10 g, mass_with: leads, leads: {gauge: 20 AWG, length: 100 mm},
    pads: {A: {role: phase}}}
esc: {kind: speed-controller, name: E, mass: 5 g, pads: {P: {role: drive-out}}}
"""
    wire = "wires: [{from: m.A, to: esc.P, lead: fitted, trim_to: 100 mm}]"
    mass = compute(one_build(shelf, f"title: T\nparts: {{m: m, esc: esc}}\n{wire}\n")).mass
    line = next(x.line for x in mass.lines if x.key == "wiring/wires")
    assert isinstance(line, Figure)
    assert line.value == 0.0


def test_a_part_without_weight_makes_totals_read_at_least() -> None:
    build = one_build(
        "a: {kind: frame, name: A, mass: 9 g}\nb: {kind: camera, name: B}",
        "title: T\nparts: {a: a, b: b}",
    )
    assert compute(build).mass.dry.lacks == ("B",)


def test_payload_has_a_line_of_its_own() -> None:
    shelf = """
f: {kind: frame, name: F, mass: 100 g}
c: {kind: payload, name: C, mass: 30 g}
p: {kind: pack, name: P, mass: 50 g}
"""
    mass = compute(one_build(shelf, "title: T\nparts: {f: f, c: c}\npacks: {p: p}")).mass
    found = (mass.dry, mass.without_payload["p"], mass.all_up["p"])
    assert [round(1000 * f.value) for f in found] == [100, 150, 180]
    assert mass.flown_with("p") == "battery p and payload c"


_LADEN = """
f: {kind: frame, name: F, mass: 100 g}
c: {kind: payload, name: C, mass: {measured: 30.00 g}}
p: {kind: pack, name: P, mass: {measured: 50.00 g}}
q: {kind: pack, name: Q, mass: {measured: 60.00 g}}
"""


@pytest.mark.parametrize(
    ("weighed", "dry", "on_p", "on_q"),
    [
        ("{what: dry, mass: 104.00 g}", 104, 184, 194),
        ("{what: p, mass: 184.00 g}", 104, 184, 194),
        ("{what: dry, mass: 104.00 g}, {what: p, mass: 184.10 g}", 104, 184.1, 194),
    ],
)
def test_dry_is_weighed_without_payload_and_all_up_with_it(
    weighed: str, dry: int, on_p: int, on_q: int
) -> None:
    """Added by hand: 104 g, the payload 30 g, the packs 50 g and 60 g; what the readings and the
    parts leave open is of the size of their spreads.
    """
    file = f"title: T\nparts: {{f: f, c: c}}\npacks: {{p: p, q: q}}\nweighed: [{weighed}]"
    mass = compute(one_build(_LADEN, file)).mass
    found = (mass.dry, mass.all_up["p"], mass.all_up["q"])
    assert [1000 * f.value for f in found] == pytest.approx([dry, on_p, on_q], abs=0.1)


def test_a_whole_that_was_weighed_needs_no_weight_of_its_payload() -> None:
    """The scale held the recorder, whatever it weighs; without it the dry weight is at most what
    the rest leaves.
    """
    shelf = _LADEN.replace("name: C, mass: {measured: 30.00 g}", "name: C")
    file = (
        "title: T\nparts: {f: f, c: c}\npacks: {p: p, q: q}\nweighed: [{what: p, mass: 184.00 g}]"
    )
    mass = compute(one_build(shelf, file)).mass
    found = [mass.all_up[k] for k in "pq"]
    assert [1000 * f.value for f in found] == pytest.approx([184, 194], abs=0.01)
    assert [f.lacks for f in found] == [(), ()]
    assert mass.dry.value == pytest.approx(0.1, abs=1e-5), "the reading says nothing of it"


@pytest.mark.parametrize(("scale", "explained"), [("100.4 g", True), ("112.0 g", False)])
def test_sum_and_scale(scale: str, explained: bool) -> None:
    """Not in the list: 0.4 g is within two spreads of a 3 % figure of 100 g (3.2 g), 12 g is not."""
    build = one_build(
        "f: {kind: frame, name: F, mass: 100 g}",
        f"title: T\nparts: {{f: f}}\nweighed: [{{what: dry, mass: {scale}}}]",
    )
    reading = compute(build).mass.readings[0]
    assert reading.explained is explained


def test_dry_weight_from_a_reading_with_a_pack() -> None:
    """Only the whole was weighed: dry is the reading less the pack, not the sum of the parts."""
    shelf = (
        "f: {kind: frame, name: F, mass: 100 g}\np: {kind: pack, name: P, mass: {measured: 50 g}}"
    )
    mass = compute(
        one_build(
            shelf, "title: T\nparts: {f: f}\npacks: {p: p}\nweighed: [{what: p, mass: 154.0 g}]"
        )
    ).mass
    assert mass.dry.value == pytest.approx(0.104, abs=mass.dry.spread)


def test_like_readings_are_believed_alike() -> None:
    """Two readings of one load: the mean, as far as the parts say no more (least squares)."""
    shelf = "f: {kind: frame, name: F, mass: 100 g}"
    weighed = "weighed: [{what: dry, mass: 101.0 g}, {what: dry, mass: 101.2 g}]"
    mass = compute(one_build(shelf, f"title: T\nparts: {{f: f}}\n{weighed}")).mass
    assert mass.dry.value == pytest.approx(0.1011, abs=1e-5)
    assert len({r.weighed.key for r in mass.readings}) == 2
