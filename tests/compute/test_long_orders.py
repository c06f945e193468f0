"""Orders of a thousand steps and tangles of lines: the same answers as a plain search, in about as
many looks as lines.
"""

import random
import sys
from collections.abc import Callable
from functools import partial
from itertools import pairwise
from types import FrameType
from typing import Any

import networkx
import pytest

from builder.compute.order.constraints.constraint_reach import ConstraintReach
from builder.compute.order.constraints.order_cycle import find_cycle
from builder.compute.order.search.order_search import plain_order
from builder.compute.order.steps.work_step import Constraint, WorkStep


def _random_lines(seed: int) -> tuple[list[str], list[Constraint]]:
    chance = random.Random(seed)
    names = [f"s{i}" for i in range(chance.randint(2, 12))]
    pairs = {(chance.choice(names), chance.choice(names)) for _ in range(chance.randint(0, 24))}
    return names, [
        Constraint(a, b, "") for a, b in sorted(pairs, key=lambda p: chance.random()) if a != b
    ]


@pytest.mark.parametrize("seed", range(200))
def test_a_cycle_is_a_shortest_one_from_its_first_line(seed: int) -> None:
    """networkx finds the girth."""
    names, lines = _random_lines(seed)
    graph = networkx.DiGraph([(c.before, c.after) for c in lines])
    girth = min((len(c) for c in networkx.simple_cycles(graph)), default=0)
    found = find_cycle(names, lines)
    assert len(found) == girth
    if found:
        assert all(a.after == b.before for a, b in pairwise((*found, found[0])))
        assert min(found, key=lines.index) is found[0]


@pytest.mark.parametrize("seed", range(200))
def test_reach_is_that_of_the_graph_while_lines_are_added(seed: int) -> None:
    names, lines = _random_lines(seed)
    half = len(lines) // 2
    graph = networkx.DiGraph([(c.before, c.after) for c in lines[:half]])
    graph.add_nodes_from(names)
    reach = ConstraintReach(names, lines[:half])
    for c in lines[half:]:
        for name in names:
            assert reach.leads(name, c.after) == networkx.has_path(graph, name, c.after)
        reach.add(c.before, c.after)
        graph.add_edge(c.before, c.after)


@pytest.mark.parametrize("seed", range(100))
def test_a_plain_order_is_the_first_in_the_usual_order(seed: int) -> None:
    names, lines = _random_lines(seed)
    lines = [
        c
        for c in lines
        if names.index(c.before) < names.index(c.after) or int(c.before[1:]) % 3 == 0
    ]
    graph = networkx.DiGraph([(c.before, c.after) for c in lines])
    graph.add_nodes_from(names)
    if not networkx.is_directed_acyclic_graph(graph):
        return
    steps = {n: WorkStep(n, "check", n, 0) for n in names}
    wanted = list(networkx.lexicographical_topological_sort(graph, key=names.index))
    assert [s.id for s in plain_order(steps, lines)] == wanted


def _lines_looked_at(run: Callable[[], object]) -> int:
    """How many lines of our code are run: a measure of work that no other program on the machine
    changes.
    """
    number = 0

    def local(frame: FrameType, event: str, argument: Any) -> Any:
        nonlocal number
        number += event == "line"
        return local

    sys.settrace(lambda frame, event, argument: local)
    try:
        run()
    finally:
        sys.settrace(None)
    return number


def _chain(n: int) -> tuple[list[str], list[Constraint]]:
    names = [f"s{i}" for i in range(n)]
    return names, [Constraint(a, b, "") for a, b in pairwise(names)]


def _reach(names: list[str], lines: list[Constraint]) -> None:
    reach = ConstraintReach(names, lines)
    for name in names:
        reach.leads(name, names[0])


WORK: dict[str, Callable[[list[str], list[Constraint]], object]] = {
    "cycle": lambda names, lines: find_cycle(names, [*lines, Constraint(names[-1], names[0], "")]),
    "no cycle": find_cycle,
    "plain order": lambda names, lines: plain_order(
        {n: WorkStep(n, "check", n, 0) for n in names}, lines[::-1]
    ),
    "reach": _reach,
}


@pytest.mark.parametrize("what", WORK)
def test_twice_as_long_a_chain_is_twice_the_work(what: str) -> None:
    short, long = (_lines_looked_at(partial(WORK[what], *_chain(n))) for n in (200, 400))
    assert long < 2.3 * short
