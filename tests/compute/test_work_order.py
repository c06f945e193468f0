"""The cheapest order: small cases against all orders there are, contradictions, and own lines that
move little.
"""

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.compute.order.builder_lines import place_own
from builder.compute.order.search.order_search import cheapest, order_cost, plain_order, tally
from builder.compute.order.steps.work_step import Constraint, WorkStep
from builder.compute.order.work_order import Cycle, Plan, sequence
from builder.pipeline.check import Checked

pytestmark = pytest.mark.slow  # takes long

Small = tuple[dict[str, WorkStep], list[Constraint]]
MARK = st.tuples(
    st.sampled_from(["", "x", "y"]),
    st.sampled_from(["top", "under"]),
    st.sampled_from([("", 0), ("fine", 320), ("fine", 350), ("broad", 380)]),
    st.integers(0, 2),
)


@st.composite
def small_plans(draw: st.DrawFn, most: int) -> Small:
    marks = draw(st.lists(MARK, min_size=2, max_size=most))
    steps = {
        f"s{i}": WorkStep(f"s{i}", "solder", f"step {i}", phase, board, side, tip, iron)
        for i, (board, side, (tip, iron), phase) in enumerate(marks)
    }
    n = len(marks)
    pairs = draw(
        st.sets(
            st.tuples(st.integers(0, n - 1), st.integers(0, n - 1)).filter(lambda p: p[0] < p[1]),
            max_size=2 * n,
        )
    )
    turned = draw(st.permutations(range(n)))  # so that constraints run against the usual order too
    return steps, [
        Constraint(f"s{turned[a]}", f"s{turned[b]}", "because") for a, b in sorted(pairs)
    ]


def _graph(steps: dict[str, WorkStep], constraints: list[Constraint]) -> "networkx.DiGraph[str]":
    graph: networkx.DiGraph[str] = networkx.DiGraph([(c.before, c.after) for c in constraints])
    graph.add_nodes_from(steps)
    return graph


def _holds(
    order: list[WorkStep], steps: dict[str, WorkStep], constraints: list[Constraint]
) -> bool:
    place = {s.id: i for i, s in enumerate(order)}
    return sorted(place) == sorted(steps) and all(
        place[c.before] < place[c.after] for c in constraints
    )


@settings(max_examples=150, deadline=None)
@given(small_plans(7))
def test_exact_order_costs_no_more_than_any_other(plan: Small) -> None:
    """Brute force over all topological orders, listed by networkx."""
    steps, constraints = plan
    found, exact = cheapest(steps, constraints)
    orders = networkx.all_topological_sorts(_graph(steps, constraints))
    assert exact
    assert _holds(found, steps, constraints)
    assert order_cost(found) == min(order_cost([steps[s] for s in order]) for order in orders)


@settings(max_examples=60, deadline=None)
@given(small_plans(5))
def test_the_beam_keeps_constraints_and_is_near_the_cheapest(plan: Small) -> None:
    """With a bound of no states the beam works alone; on so few steps it finds the cheapest as
    well.
    """
    steps, constraints = plan
    found, exact = cheapest(steps, constraints, bound=-1)
    assert not exact
    assert _holds(found, steps, constraints)
    assert order_cost(found) == order_cost(cheapest(steps, constraints)[0])


@settings(max_examples=60, deadline=None)
@given(small_plans(40))
def test_every_constraint_holds(plan: Small) -> None:
    steps, constraints = plan
    found = sequence(steps, constraints, bound=500)
    assert not isinstance(found, Cycle)
    assert _holds(found, steps, constraints)
    assert order_cost(found) <= order_cost(plain_order(steps, constraints))


@settings(max_examples=40, deadline=None)
@given(small_plans(12))
def test_the_tally_adds_up_to_the_cost(plan: Small) -> None:
    steps, constraints = plan
    order, _ = cheapest(steps, constraints)
    counted = tally(order)
    assert order_cost(order) == 10_000 * counted.returns + counted.cost


def test_a_contradiction_shows_its_shortest_cycle() -> None:
    steps = {s: WorkStep(s, "fit", s, 0) for s in "abcd"}
    lines = [Constraint(a, b, f"{a} to {b}") for a, b in ("ab", "bc", "cd", "da", "ca")]
    found = sequence(steps, lines)
    assert isinstance(found, Cycle)
    assert sorted(c.reason for c in found.constraints) == ["a to b", "b to c", "c to a"]
    assert [c.after for c in found.constraints] == [
        c.before for c in (*found.constraints[1:], found.constraints[0])
    ]


@settings(max_examples=150, deadline=None)
@given(small_plans(14), st.data())
def test_one_more_line_moves_only_what_hangs_on_it(plan: Small, data: st.DataObject) -> None:
    """What moves is the earlier step with all that must come before it, or the later one with all
    that must follow.

    All other steps keep their order among themselves, and no more steps move than the smaller of
    the two groups has.
    """
    steps, constraints = plan
    graph = _graph(steps, constraints)
    order, _ = cheapest(steps, constraints)
    names = [s.id for s in order]
    late = data.draw(st.integers(1, len(names) - 1))
    early = data.draw(st.integers(0, late - 1))
    before, after = names[late], names[early]
    if networkx.has_path(graph, after, before):
        return
    line = Constraint(before, after, "the builder says so")
    new = place_own(order, steps, (*constraints, line))
    assert _holds(new, steps, [*constraints, line])
    stretch = set(names[early : late + 1])
    up = (networkx.ancestors(graph, before) | {before}) & stretch
    down = (networkx.descendants(graph, after) | {after}) & stretch
    moved = up if len(up) < len(down) else down
    kept = [
        [s for s in names if s not in group] == [s.id for s in new if s.id not in group]
        for group in (up, down)
    ]
    assert any(kept)
    rest = [s for s in names if s not in moved]
    assert len(up) == len(down) or rest == [s.id for s in new if s.id not in moved]


@pytest.mark.parametrize(
    "name", ["dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone"]
)
def test_the_demo_order_is_cheaper_than_a_plain_one(demo: Checked, name: str) -> None:
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    steps, constraints = {s.id: s for s in plan.steps}, list(plan.constraints)
    assert _holds(list(plan.steps), steps, constraints)
    print(
        f"{name}: {len(steps)} steps, cost {plan.changes.cost} with {plan.changes.returns} returns; "
        f"plain topological order {plan.plain.cost} with {plan.plain.returns}"
    )
    assert plan.exact
    assert plan.changes.returns == 0
    assert plan.changes.cost < plan.plain.cost
    assert len(plain_order(steps, constraints)) == len(steps)
