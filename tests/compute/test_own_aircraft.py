"""Another aircraft after one sheet: `own_aircraft: yes` and 'your copy' are one question, so they have
one answer. Random builds; the second of two ways is asked of the first.
"""

from random import Random

import pytest

from builder.compute.compare.alternatives import swapped
from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.compute.weight.mass import mass_table
from tests.compute.small_workspace import workspace


def _mass(random: Random, grams: float) -> str:
    kind = random.choice(["maker: %.1f g", "measured: %.1f g", "measured: %.0f g"])
    return "{" + kind % grams + "}"


def _shelf(random: Random) -> str:
    return f"""
f: {{kind: frame, name: F, mass: {_mass(random, random.uniform(40, 80))}}}
m: {{kind: motor, name: M, mass: {_mass(random, random.uniform(12, 20))}, alternatives: [n]}}
n: {{kind: motor, name: N, mass: {_mass(random, random.uniform(7, 11))}}}
c: {{kind: payload, name: C, mass: {_mass(random, random.uniform(10, 30))}}}
p: {{kind: pack, name: P, cells: 4S, mass: {_mass(random, random.uniform(50, 90))}}}
"""


def _file(random: Random) -> str:
    readings = [f"{{what: dry, mass: {random.uniform(100, 150):.1f} g, scale_name: pocket}}"]
    readings += [f"{{what: p, mass: {random.uniform(190, 260):.1f} g}}"]
    readings += ["{what: parts, parts: [m], mass: 60.2 g}"]
    some = random.sample(readings, random.randint(0, 3))
    weighed = f"{{use: m, count: 4, each_weighed: [{random.uniform(12, 20):.2f} g]}}"
    motor = random.choice(["{use: m, count: 4}", weighed])
    payload = random.choice(["", ", c: c"])
    return (
        f"title: A\nparts: {{f: f, m: {motor}{payload}}}\npacks: {{p: p}}\n"
        f"weighed: [{', '.join(some)}]\nextra_mass: [{{what: glue, mass: 2 g}}]\n"
    )


OTHER = "title: B\nbased_on: a\nown_aircraft: yes\n"
LIGHTER = "title: C\nbased_on: b\nparts: {m: {use: n, count: 4}}\n"


def _same(a: object, b: object) -> None:
    assert isinstance(a, Figure) and isinstance(b, Figure)
    assert a.value == pytest.approx(b.value, abs=1e-12)
    assert a.spread == pytest.approx(b.spread, abs=1e-12)


@pytest.mark.parametrize("seed", range(12))
def test_another_aircraft_weighs_what_a_copy_weighs(seed: int) -> None:
    random = Random(seed)
    made = workspace(_shelf(random), {"a": _file(random), "b": OTHER, "c": LIGHTER})
    a, b, c = (mass_table(made.builds[n]) for n in "abc")
    _same(b.dry, a.copies[""].mass)
    _same(b.all_up["p"], a.copies["p"].mass)
    for key in ("", "p"):
        _same(b.copies[key].mass, a.copies[key].mass)
    lighter = mass_table(swapped(made.builds["b"], "m", "n").build)
    _same(lighter.dry, c.dry)
    _same(lighter.all_up["p"], c.all_up["p"])


def test_what_was_weighed_of_it_itself_counts_alone() -> None:
    shelf = "f: {kind: frame, name: F, mass: {maker: 100 g}}\n"
    a = "title: A\nparts: {f: f}\nweighed: [{what: dry, mass: 109.0 g}]"
    b = f"{OTHER}weighed: [{{what: dry, mass: 102.0 g}}]"
    made = workspace(
        shelf,
        {"a": a, "b": b, "alone": b.replace("based_on: a\nown_aircraft: yes\n", "parts: {f: f}\n")},
    )
    mine, alone = (compute(made.builds[n]).mass.dry for n in ("b", "alone"))
    _same(mine, alone)
    assert mine.value == pytest.approx(0.102, abs=5e-4)


def test_a_specimen_that_is_heavier_than_its_parts_makes_a_heavier_copy() -> None:
    """3 g that no part explains: the copier's aircraft is expected near 103 g, not at 100 g."""
    shelf = "f: {kind: frame, name: F, mass: {measured: 100.0 g}}\n"
    a = "title: A\nparts: {f: f}\nweighed: [{what: dry, mass: 103.0 g}]"
    made = workspace(shelf, {"a": a, "b": OTHER})
    found = compute(made.builds["b"]).mass
    assert isinstance(found.dry, Figure)
    assert found.dry.value == pytest.approx(0.103, abs=2e-4)
    assert found.dry.spread > 0.001
    assert found.readings == ()


def test_nothing_that_was_done_to_the_one_copied_is_said_of_another_aircraft() -> None:
    """Owned, weighed, tried: true of the first. Another aircraft says what its own file says; the
    day of the last change is the sheet's, and is inherited.
    """
    shelf = "f: {kind: frame, name: F, mass: {maker: 100 g}}\n"
    tried = "setup: {fail_safe: {does: motors stop, within: 1 s, tested: '2026-09-04, by hand'}}\n"
    own = "parts: {f: {use: f, owned: yes, each_weighed: [101.2 g]}}\n"
    texts = {
        "a": f"title: A\nrevised: 2026-09-05\n{own}{tried}",
        "b": OTHER,
        "variant": "title: V\nbased_on: a\n",
        "mine": OTHER + tried.replace("2026-09-04, by hand", "2026-10-01"),
    }
    made = {k: b.source for k, b in workspace(shelf, texts).builds.items()}
    tests = {k: s.setup.fail_safe.tested for k, s in made.items() if s.setup.fail_safe}
    first = "2026-09-04, by hand"
    assert tests == {"a": first, "b": None, "variant": first, "mine": "2026-10-01"}
    assert made["b"].setup.fail_safe and made["b"].setup.fail_safe.within, "what it is set to stays"
    assert (made["b"].parts["f"].owned, made["b"].parts["f"].each_weighed) == (None, ())
    assert made["variant"].parts["f"].owned
    assert len({s.revised for s in made.values()}) == 1 and made["b"].revised is not None
