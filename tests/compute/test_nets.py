"""Nets against networkx, and what a plug joins against a table worked out by hand."""

import json
from typing import Any

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.compute.circuit.contacts import (
    in_mating_order,
    joins_of,
    loose_contacts,
    pairs,
    plug_joins,
)
from builder.compute.circuit.nets import netlist
from builder.model.build import Build
from builder.model.source.electrical import Socket
from tests.compute.small_workspace import one_build

pytestmark = pytest.mark.slow  # takes long

ROLES = ("ground", "supply", "draws", "sends", "listens", "phase", "sense", "ring")


@st.composite
def wirings(draw: st.DrawFn) -> Build:
    """Two to five parts of up to six pads with a socket, wired and plugged at random, some pads
    joined inside.
    """
    shelf: dict[str, Any] = {}
    for i in range(draw(st.integers(2, 5))):
        names = [f"P{n}" for n in range(draw(st.integers(1, 6)))]
        pads = {n: {"role": draw(st.sampled_from(ROLES))} for n in names}
        if len(names) > 1 and draw(st.booleans()):
            pads[names[0]]["joined_to"] = draw(st.sampled_from(names[1:]))
        turned = draw(st.booleans())
        view = f"into the mating face, latch {'down' if turned else 'up'}"
        sockets = {"J": {"contacts": names, "seen": view}}
        shelf[f"part{i}"] = {"kind": "other", "name": f"Part {i}", "pads": pads, "sockets": sockets}
    ends = [f"{part}.{pad}" for part, entry in shelf.items() for pad in entry["pads"]]
    pair = st.tuples(st.sampled_from(ends), st.sampled_from(ends))
    wires = [{"from": a, "to": b} for a, b in draw(st.lists(pair, max_size=12))]
    some = st.sampled_from(sorted(shelf))
    cables = st.sampled_from(["straight", "reversed", {"1": "2", "2": "1"}])
    plugs = [
        {"from": f"{a}.J", "to": f"{b}.J", "cable": c}
        for a, b, c in draw(st.lists(st.tuples(some, some, cables), max_size=3))
        if a != b
    ]
    build = {"title": "Test", "parts": {k: k for k in shelf}, "wires": wires, "plugs": plugs}
    return one_build(json.dumps(shelf), json.dumps(build))  # JSON is YAML, without aliases


@settings(max_examples=150, deadline=None)
@given(wirings())
def test_nets_are_the_connected_components(build: Build) -> None:
    """Oracle: networkx.connected_components over the same joins."""
    graph: nx.Graph[Any] = nx.Graph()
    graph.add_nodes_from(build.contacts)
    graph.add_edges_from((j.a, j.b) for j in joins_of(build))
    nets = netlist(build).nets
    assert {frozenset(n.contacts) for n in nets} == {
        frozenset(c) for c in nx.connected_components(graph)
    }


@settings(max_examples=60, deadline=None)
@given(wirings())
def test_every_contact_and_every_join_is_in_exactly_one_net(build: Build) -> None:
    made = netlist(build)
    assert sorted(c for n in made.nets for c in n.contacts) == sorted(build.contacts)
    assert sum(len(n.joins) for n in made.nets) == len(made.joins)
    assert all(j.a in n.contacts and j.b in n.contacts for n in made.nets for j in n.joins)
    assert len({n.name for n in made.nets}) == len(made.nets)


@settings(max_examples=60, deadline=None)
@given(wirings())
def test_wires_grounds_and_rails_need_not_be_in_any_order(build: Build) -> None:
    """Joins that are looked at from the other end give the same nets."""
    made = netlist(build)
    graph: nx.Graph[Any] = nx.Graph((j.b, j.a) for j in reversed(made.joins))
    for net in made.nets:
        if len(net.contacts) > 1:
            assert nx.has_path(graph, net.contacts[0], net.contacts[-1])


@pytest.mark.parametrize(
    ("seen", "order"),
    [
        ("into the mating face, latch up", ("A", "B", "C")),
        ("into the mating face, latch down", ("C", "B", "A")),
        ("from the wire side, latch up", ("C", "B", "A")),
        ("from the wire side, latch down", ("A", "B", "C")),
    ],
)
def test_every_view_of_a_socket_is_turned_into_one(seen: str, order: tuple[str, ...]) -> None:
    """Geometry: seen from behind, left and right change places; upside down they change places too."""
    assert in_mating_order(Socket(contacts=("A", "B", "C"), seen=seen)) == order


@pytest.mark.parametrize(
    ("lies", "a", "b", "expected"),
    [
        ("straight", 3, 3, ((1, 1), (2, 2), (3, 3))),
        ("reversed", 3, 3, ((1, 3), (2, 2), (3, 1))),
        ("straight", 4, 3, ((1, 1), (2, 2), (3, 3))),
        ("reversed", 4, 3, ((1, 3), (2, 2), (3, 1))),
        ({"1": "3", "3": "1", "9": "2"}, 3, 3, ((1, 3), (3, 1))),
        (None, 3, 3, None),
    ],
)
def test_which_positions_a_cable_joins(lies: Any, a: int, b: int, expected: Any) -> None:
    assert pairs(lies, a, b) == expected


SHELF = """
one: {kind: other, name: One, pads: {G: {role: ground}, V: {role: supply}, S: {role: sends}}, sockets: {J: {contacts: [G, V, S]}}}
two: {kind: other, name: Two, pads: {S: {role: listens}, V: {role: draws}, G: {role: ground}}, sockets: {J: {contacts: [S, V, G]}}}
flat: {kind: cable, name: Flat cable, lies: reversed}
"""


@pytest.mark.parametrize(
    ("cable", "expected"),
    [
        ("cable: straight", {("G", "S"), ("V", "V"), ("S", "G")}),
        ("cable: reversed", {("G", "G"), ("V", "V"), ("S", "S")}),
        ("use: flat", {("G", "G"), ("V", "V"), ("S", "S")}),  # as the cable on the shelf says
        ("cable: {'1': '3'}", {("G", "G")}),
        ("use: one", set()),  # nobody says how it lies
    ],
)
def test_what_a_plug_joins_is_derived_from_both_orders(
    cable: str, expected: set[tuple[str, str]]
) -> None:
    build = one_build(
        SHELF,
        "title: T\nparts: {one: one, two: two, flat: flat}\nplugs: [{from: one.J, to: two.J,"
        f" {cable}}}]",
    )
    joins = plug_joins(build, build.plugs[0])
    assert {(j.a.pad, j.b.pad) for j in joins} == expected
    met = {c for j in joins for c in (j.a, j.b)}
    loose = {c.contact for c in loose_contacts(build, build.plugs[0])}
    assert met | loose == set(build.contacts)
    assert not met & loose
