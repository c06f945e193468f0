"""The order of work: constraints hold, by a checker written apart from the planner; small cases against all orders."""

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.compute.steps import Constraint, WorkStep
from builder.compute.work_order import Cycle, Plan, order_cost, plain_order, sequence
from builder.pipeline.check import Checked


def _steps(n: int, marks: list[tuple[str, str, str]]) -> dict[str, WorkStep]:
    return {
        f"s{i}": WorkStep(f"s{i}", "solder", f"step {i}", 0, board, side, tip)
        for i, (board, side, tip) in zip(range(n), marks, strict=True)
    }


MARK = st.tuples(st.sampled_from("xy"), st.sampled_from(["top", "under"]), st.sampled_from(["fine", "broad"]))


@st.composite
def small_plans(draw: st.DrawFn, most: int) -> tuple[dict[str, WorkStep], list[Constraint]]:
    n = draw(st.integers(2, most))
    steps = _steps(n, draw(st.lists(MARK, min_size=n, max_size=n)))
    pairs = draw(
        st.sets(st.tuples(st.integers(0, n - 1), st.integers(0, n - 1)).filter(lambda p: p[0] < p[1]), max_size=2 * n)
    )
    return steps, [Constraint(f"s{a}", f"s{b}", "because") for a, b in sorted(pairs)]


@settings(max_examples=60, deadline=None)
@given(small_plans(6))
def test_exact_order_costs_no_more_than_any_other(plan: tuple[dict[str, WorkStep], list[Constraint]]) -> None:
    """Brute force over all topological orders by networkx."""
    steps, constraints = plan
    graph = networkx.DiGraph([(c.before, c.after) for c in constraints])
    graph.add_nodes_from(steps)
    found = sequence(steps, constraints)
    assert not isinstance(found, Cycle)
    cheapest = min(order_cost([steps[s] for s in order]) for order in networkx.all_topological_sorts(graph))
    assert order_cost(found) == cheapest


@settings(max_examples=60, deadline=None)
@given(small_plans(30))
def test_every_constraint_holds(plan: tuple[dict[str, WorkStep], list[Constraint]]) -> None:
    steps, constraints = plan
    found = sequence(steps, constraints)
    assert not isinstance(found, Cycle)
    place = {s.id: i for i, s in enumerate(found)}
    assert sorted(place) == sorted(steps)
    assert all(place[c.before] < place[c.after] for c in constraints)


def test_a_contradiction_shows_its_cycle() -> None:
    steps = _steps(3, [("x", "top", "fine")] * 3)
    lines = [Constraint("s0", "s1", "a"), Constraint("s1", "s2", "b"), Constraint("s2", "s0", "c")]
    found = sequence(steps, lines)
    assert isinstance(found, Cycle)
    assert [c.reason for c in found.constraints] == ["a", "b", "c"]


@pytest.mark.parametrize("name", ["dipper", "dipper-light", "redshank", "curlew", "pipit"])
def test_the_demo_order_keeps_its_constraints_and_is_cheaper_than_a_plain_one(demo: Checked, name: str) -> None:
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    graph = networkx.DiGraph([(c.before, c.after) for c in plan.constraints])
    assert networkx.is_directed_acyclic_graph(graph)
    place = {s.id: i for i, s in enumerate(plan.steps)}
    assert all(place[a] < place[b] for a, b in graph.edges)
    print(f"{name}: cost {plan.cost}, plain topological order {plan.plain_cost}")
    assert plan.cost < plan.plain_cost
    plain = plain_order({s.id: s for s in plan.steps}, plan.constraints)
    assert len(plain) == len(plan.steps)


def test_the_negative_battery_contact_is_the_hardest_joint(demo: Checked) -> None:
    """Common practice, no source: it sits on the ground plane and wants the broad tip."""
    for name in ("dipper", "redshank", "curlew"):
        joints = [j for j in demo.sheets[name].results.joints if j.contact.part == "esc"]
        hardest = max(joints, key=lambda j: j.heat.power)
        assert hardest.contact.pad == "BAT-"
        assert hardest.tip == "broad"
