"""Groups of the order of work: what is one step for the hand, and that no constraint is broken to
make it.

Principles: one major operation a step, like fastenings together, explicit order (Agrawala and
others, 'Designing effective step-by-step assembly instructions', ACM Transactions on Graphics 22,
2003, 828 to 837). Eight boxes a step: common practice, no source.
"""

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.compute.compute import compute
from builder.compute.order.contraction import drawn_together
from builder.compute.order.steps.work_step import Constraint, StepGroup
from builder.compute.order.work_order import Plan
from builder.pages.told_words import told_words
from builder.pipeline.check import Checked
from tests.compute.made_up_builds import CHOICES, Choice, build_of

pytestmark = pytest.mark.slow  # takes long

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")


def _plan(demo: Checked, name: str) -> Plan:
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    return plan


def _by_id(plan: Plan) -> dict[str, StepGroup]:
    return {g.id: g for g in plan.groups}


def _kept(plan: Plan) -> bool:
    place = {s.id: i for i, s in enumerate(plan.steps)}
    return all(place[c.before] < place[c.after] for c in plan.constraints)


def test_dipper_is_built_in_sixty_steps_at_most(demo: Checked) -> None:
    steps = [g for g in _plan(demo, "dipper").groups if not g.gate]
    assert len(steps) <= 60


@pytest.mark.parametrize("name", DEMO)
def test_groups_are_the_order_itself_cut_into_pieces(demo: Checked, name: str) -> None:
    plan = _plan(demo, name)
    assert [s for g in plan.groups for s in g.steps] == list(plan.steps)
    assert _kept(plan)
    assert len({g.id for g in plan.groups}) == len(plan.groups)
    assert all(1 <= len(g.steps) <= 8 for g in plan.groups)
    assert all(len(g.steps) == 1 for g in plan.groups if g.gate)


@pytest.mark.parametrize("name", DEMO)
def test_a_harness_is_one_step_with_its_ground_first(demo: Checked, name: str) -> None:
    """Told apart from the planner: by the wires of the build, what is soldered at a load itself."""
    build, plan = demo.sheets[name].build, _plan(demo, name)
    home = {s.id: g.id for g in plan.groups for s in g.steps}
    centres = ("speed-controller", "flight-controller", "combined-board")
    ends: dict[str, list[str]] = {}
    for run in build.wires:
        for end in (run.start, run.end):
            fits = f"solder {end}" in home and build.parts[end.part].part.KIND not in centres
            if fits and f"solder {end}" not in ends.setdefault(end.board, []):
                ends[end.board].append(f"solder {end}")
    assert ends
    for joints in ends.values():
        assert len({home[j] for j in joints}) == 1
    for group in plan.groups:
        grounds = [s.joint.ground for s in group.steps if s.joint is not None]
        assert grounds == sorted(grounds, reverse=True), group.id


@pytest.mark.parametrize("name", DEMO)
def test_a_group_is_soldered_with_one_iron(demo: Checked, name: str) -> None:
    """All demo boards have room for it. No joint gets a finer tip or a colder iron than its own."""
    widths = ("fine", "medium", "broad")
    for group in _plan(demo, name).groups:
        irons = {(s.tip, s.iron) for s in group.steps if s.tip}
        assert len(irons) <= 1
        for step in group.steps:
            if step.joint is not None:
                assert widths.index(step.tip) >= widths.index(step.joint.heat.tip)
                assert step.iron >= step.joint.heat.setting


def test_words_name_the_device_and_its_contacts(demo: Checked) -> None:
    plan = _plan(demo, "dipper")
    said = {g.id: told_words(g.text) for g in plan.groups}
    assert said["solder motor.1 at esc"] == "Solder motor 1 to esc: A, B, C."
    words, contacts = said["solder receiver at controller"].removesuffix(".").split(": ")
    assert words == "Solder receiver to controller"
    assert contacts.split(", ")[:2] == ["GND", "5V"]
    assert sorted(contacts.split(", ")[2:]) == ["RX", "TX"]
    assert said["solder video"] == (
        "Tin the pads of video, then solder its wires: GND, VIN, CTRL, VID."
    )
    boxes = [s.id for s in _by_id(plan)["solder motor.1 at esc"].steps]
    assert boxes == ["solder esc.M1A", "solder esc.M1B", "solder esc.M1C"]
    assert len(_by_id(plan)["spin motor"].steps) == 4


def test_a_groups_name_does_not_depend_on_its_words_or_its_place(demo: Checked) -> None:
    light, base = _plan(demo, "dipper-light"), _plan(demo, "dipper")
    assert {g.id for g in light.groups} == {g.id for g in base.groups}


@settings(max_examples=60, deadline=None)
@given(CHOICES)
def test_groups_of_made_up_builds_break_no_constraint(choice: Choice) -> None:
    plan = compute(build_of(choice)).order
    assert isinstance(plan, Plan)
    assert [s for g in plan.groups for s in g.steps] == list(plan.steps)
    assert _kept(plan)
    assert all(len(g.steps) <= 8 for g in plan.groups)
    assert len({g.id for g in plan.groups}) == len(plan.groups)


@settings(max_examples=200, deadline=None)
@given(st.data())
def test_what_is_drawn_together_has_no_cycle_and_is_cut_only_where_it_must_be(
    data: st.DataObject,
) -> None:
    """networkx draws the same nodes together and looks for a cycle."""
    n = data.draw(st.integers(3, 12))
    names = [f"s{i}" for i in range(n)]
    pairs = data.draw(
        st.sets(
            st.tuples(st.integers(0, n - 1), st.integers(0, n - 1)).filter(lambda p: p[0] < p[1])
        )
    )
    turned = data.draw(st.permutations(names))
    lines = [Constraint(turned[a], turned[b], "") for a, b in sorted(pairs)]
    of = data.draw(st.lists(st.integers(0, 3), min_size=n, max_size=n))
    groups = [[m for m, g in zip(names, of, strict=True) if g == k] for k in (1, 2, 3)]
    wanted = [g for g in groups if len(g) > 1]
    home = drawn_together(names, wanted, lines)
    graph = networkx.DiGraph([(c.before, c.after) for c in lines])
    graph.add_nodes_from(names)

    def acyclic(of_step: dict[str, str]) -> bool:
        made = networkx.DiGraph(
            (of_step[a], of_step[b]) for a, b in graph.edges if of_step[a] != of_step[b]
        )
        return bool(networkx.is_directed_acyclic_graph(made))

    assert acyclic(home)
    assert all(home[m] in g for g in wanted for m in g)
    whole = {m: m for m in names} | {m: g[0] for g in wanted for m in g}
    if acyclic(whole):
        assert home == whole


def test_a_line_between_two_joints_of_a_harness_cuts_it_and_nothing_else() -> None:
    choice = Choice(False, False, 4, True, ("receiver",), (), ())
    plan = compute(build_of(choice)).order
    assert isinstance(plan, Plan)
    whole = _by_id(plan)["solder receiver"]
    first, last = whole.steps[1].id, whole.steps[-1].id
    own = (("after", first), ("before", last))
    cut = Choice(False, False, 4, True, ("receiver",), (), own[:1])
    assert isinstance(compute(build_of(cut)).order, Plan)
    home = drawn_together(
        ["a", "x", "b", "c"],
        [["a", "b", "c"]],
        [Constraint("a", "x", ""), Constraint("x", "b", "")],
    )
    assert home["a"] == home["c"] != home["b"]
    assert home["x"] == "x"
