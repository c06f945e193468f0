"""A single fault is joined anew only in the nets that it is at. Held here against all of the wiring
joined anew, by networkx, which shares nothing with that.
"""

from itertools import pairwise

import networkx
import pytest

from builder.compute.circuit import nets
from builder.compute.faults import fault_states
from builder.compute.faults.fault_states import FaultState, WiredBench
from builder.compute.faults.single_faults import SingleFault, single_faults
from builder.compute.faults.symptoms import by_symptom
from builder.model.build import Contact
from builder.pipeline.check import Checked

MOST = 15  # times all contacts of a build that are joined anew for all of its faults together


def _bench(demo: Checked, name: str) -> WiredBench:
    sheet = demo.sheets[name]
    return WiredBench(sheet.build, sheet.results.netlist)


def _whole(bench: WiredBench, fault: SingleFault) -> "networkx.Graph[Contact]":
    """All of the wiring with a fault in."""
    graph: networkx.Graph[Contact] = networkx.Graph()
    graph.add_nodes_from(bench.build.contacts)
    graph.add_edges_from(bench.joined)
    ends = fault.places
    if fault.kind == "bridge":
        graph.add_edge(*ends)
    if fault.kind in ("open", "plug", "swap"):
        graph.remove_edges_from(list(pairwise(ends))[::2])
    if fault.kind == "swap":
        graph.add_edges_from([(ends[0], ends[3]), (ends[2], ends[1])])
    return graph


@pytest.mark.parametrize("name", ["pipit", "dipper"])
def test_nets_with_a_fault_are_those_of_the_whole_wiring(demo: Checked, name: str) -> None:
    bench, seen = _bench(demo, name), set()
    for fault in single_faults(bench.build, bench.nets):
        state = FaultState(bench, fault)
        groups = list(networkx.connected_components(_whole(bench, fault)))
        for group in groups:
            first = next(iter(group))
            assert set(state.on(first)) == group, fault
            assert {state.one(first, other) for other in group} == {True}
        before = {c: set(bench.sound.members[n]) for c, n in bench.sound.net.items()}
        assert state.changed == {c for g in groups for c in g if before[c] != g}, fault
        seen.add(fault.kind)
    assert {"open", "bridge", "rail", "part"} <= seen
    assert name == "pipit" or {"plug", "swap"} <= seen


def test_faults_join_few_contacts_anew(demo: Checked, monkeypatch: pytest.MonkeyPatch) -> None:
    """Work is counted, not timed: joined anew whole, each of the 105 faults of dipper took all contacts."""
    joined: list[int] = []

    def counted(contacts: list[Contact], pairs: list[tuple[Contact, Contact]]) -> object:
        all_contacts = list(contacts)
        joined.append(len(all_contacts))
        return nets.components(all_contacts, pairs)

    monkeypatch.setattr(fault_states, "components", counted)
    bench = _bench(demo, "dipper")
    by_symptom(bench)
    assert 0 < sum(joined) < MOST * len(bench.build.contacts)
