"""Every single fault of a joint, put into the wiring, changes a reading that a gate names before it
puts power on: an open joint, a bridge of neighbours, two swapped wires of one device.

Written apart from the gates: readings are taken on a graph that networkx makes of the wiring, as a
meter's beep test would (common practice, no source). What no beep test can show is left
out: the order of a motor's three leads, which turns it the other way, and which way round a
capacitor is soldered, which a step has the eye look at.
"""

import re
from itertools import pairwise

import networkx
import pytest

from builder.compute.order.work_order import Plan
from builder.compute.power_up.gate_readings import GateReading
from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import Checked

pytestmark = pytest.mark.slow  # takes long

DEMO = ("dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone")
# A wire as it is soldered: from which contact's joint to which.
Wire = tuple[str, str]


def _wires(sheet: SheetInput) -> list[Wire]:
    return [(str(r.start), str(r.end)) for r in sheet.build.wires]


def _rest(sheet: SheetInput) -> list[Wire]:
    """What plugs and copper inside parts join."""
    joins = [j for j in sheet.results.netlist.joins if j.by != "wire"]
    return [(str(j.a), str(j.b)) for j in joins]


def _graph(sheet: SheetInput, wires: list[Wire]) -> "networkx.Graph[str]":
    graph: networkx.Graph[str] = networkx.Graph()
    graph.add_nodes_from(str(c) for c in sheet.build.contacts)
    graph.add_edges_from([*wires, *_rest(sheet)])
    return graph


def _pairs(sheet: SheetInput, reading: GateReading) -> list[tuple[str, str]]:
    """The pairs of contacts that a reading is taken between."""
    first, second = reading.between
    if second in {str(c) for c in sheet.build.contacts} and " " not in first:
        return [(first, second)]
    board = first.partition(",")[0]
    if "each wire end to end" in first:
        found = (piece.partition(" to ") for piece in second.split(", "))
        return [(f"{board}.{near}", far) for near, _, far in found]
    if "edge" in first:
        return [(f"{board}.{a}", f"{board}.{b}") for a, b in pairwise(second.split())]
    return []


def _tried_before(sheet: SheetInput) -> list[tuple[str, str]]:
    """The wires of an underside, which a step has beep-tested before the board is mounted: no gate
    can, for no probe reaches them then.
    """
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    tried = {s.board for s in plan.steps if s.id.endswith(" underside") and s.do == "check"}
    return [
        (str(r.start), str(r.end))
        for r in sheet.build.wires
        if any(c.part in tried and sheet.build.pad(c).side == "under" for c in (r.start, r.end))
    ]


def _beeps(sheet: SheetInput, wires: list[Wire]) -> dict[tuple[str, str], bool]:
    """For every pair of contacts that some gate of the open frame names: whether it beeps."""
    graph = _graph(sheet, wires)
    net = {n: i for i, row in enumerate(networkx.connected_components(graph)) for n in row}
    named = [
        pair
        for g in sheet.results.gates
        for reading in g.readings
        for pair in _pairs(sheet, reading)
    ]
    named += _tried_before(sheet)
    assert all(a in net and b in net for a, b in named), (
        "a reading names a contact that is not there"
    )
    return {(a, b): net[a] == net[b] for a, b in named}


def _kind(sheet: SheetInput, end: str) -> str:
    return sheet.build.parts[end.split(".")[0]].part.KIND


@pytest.mark.parametrize("name", DEMO)
def test_every_open_joint_of_a_wire_is_named(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    wires = _wires(sheet)
    sound = _beeps(sheet, wires)
    for wire in wires:
        if {_kind(sheet, end) for end in wire} & {"motor", "capacitor"}:
            continue  # a motor is read at its joints; a capacitor that is off harms nothing at once
        faulty = _beeps(sheet, [w for w in wires if w != wire])
        assert faulty != sound, f"no reading finds that {wire} is open"


@pytest.mark.parametrize("name", DEMO)
def test_every_bridge_of_neighbours_on_two_nets_is_named(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    wires = _wires(sheet)
    sound = _beeps(sheet, wires)
    graph = _graph(sheet, wires)
    on = {p for g in sheet.results.gates for p in g.parts}
    for part in sorted(on):
        key = part.split(".")[0]
        edges = sheet.build.parts[key].part.edges
        for row in (edges.front, edges.left, edges.right, edges.rear):
            for a, b in pairwise(row):
                ends = (f"{part}.{a}", f"{part}.{b}")
                if networkx.has_path(graph, *ends):
                    continue
                assert _beeps(sheet, [*wires, ends]) != sound, (
                    f"no reading finds a bridge of {ends}"
                )


def _board(end: str) -> str:
    return end.rpartition(".")[0]


@pytest.mark.parametrize("name", DEMO)
def test_every_swapped_pair_of_a_harness_is_named(demo: Checked, name: str) -> None:
    """Two wires between the same two parts; which way round a capacitor is, the eye must see."""
    sheet = demo.sheets[name]
    wires = _wires(sheet)
    sound = _beeps(sheet, wires)
    graph = _graph(sheet, wires)
    swaps = 0
    for i, one in enumerate(wires):
        for other in wires[i + 1 :]:
            same = [_board(e) for e in one] == [_board(e) for e in other]
            if not same or networkx.has_path(graph, one[0], other[0]):
                continue
            if _kind(sheet, one[0]) in ("motor", "capacitor"):
                continue
            left = [w for w in wires if w not in (one, other)]
            swapped = [*left, (one[0], other[1]), (other[0], one[1])]
            swaps += 1
            assert _beeps(sheet, swapped) != sound, f"no reading finds {one} and {other} swapped"
    assert swaps > 5


@pytest.mark.parametrize("name", DEMO)
def test_no_gate_reads_where_no_probe_reaches(demo: Checked, name: str) -> None:
    """The underside of a board that is in the frame by then (common practice, no source)."""
    sheet = demo.sheets[name]
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    place = {s.id: i for i, s in enumerate(plan.steps)}
    for gate in sheet.results.gates:
        at = next(place[s.id] for s in plan.steps if s.gate == gate.letter)
        ends = [e for r in gate.readings for pair in _pairs(sheet, r) for e in pair]
        for contact in (c for c in sheet.build.contacts if str(c) in ends):
            mounted = place.get(f"mount {contact.part}", at) < at
            centre = sheet.build.parts[contact.part].part.KIND.endswith("-controller")
            under = sheet.build.pad(contact).side == "under"
            assert not (mounted and centre and under), (gate.letter, contact)


def test_an_underside_is_looked_over_before_its_board_is_mounted(demo: Checked) -> None:
    """Pipit's board: four pads below. Dipper's boards have none."""
    plan = demo.sheets["pipit"].results.order
    assert isinstance(plan, Plan)
    at = {s.id: i for i, s in enumerate(plan.steps)}
    look = at["look over board underside"]
    under = [at[s.id] for s in plan.steps if s.joint is not None and s.joint.side == "under"]
    assert max(under) < look < at["mount board"]
    other = demo.sheets["dipper"].results.order
    assert isinstance(other, Plan)
    assert not [s for s in other.steps if s.id.endswith(" underside") and s.do == "check"]


@pytest.mark.parametrize("name", DEMO)
def test_an_open_lead_of_a_motor_is_read_at_its_joints(demo: Checked, name: str) -> None:
    plan = demo.sheets[name].results.order
    assert isinstance(plan, Plan)
    soldered = any(
        s.joint is not None
        and any(_kind(demo.sheets[name], str(c)) == "motor" for c in s.joint.others)
        for s in plan.steps
    )
    labels = [m.label for s in plan.steps if s.id.startswith("inspect ") for m in s.measures]
    assert ("three contacts of each channel" in labels) == soldered


def test_no_number_is_foretold_where_ohms_go_through_semiconductors(demo: Checked) -> None:
    """Only a wire (under 0.5 Ω), a resistor that its maker states and a winding have a number."""
    for sheet in demo.sheets.values():
        for gate in sheet.results.gates:
            for reading in gate.readings:
                number = re.search(r"\d+(\.\d+)? ?(k|M)?Ω|ohms", reading.expect)
                wire = "under 0.5 Ω" in reading.expect
                assert number is None or wire or "write the ohms down" in reading.expect


@pytest.mark.parametrize("name", DEMO)
def test_joints_that_a_wrong_reading_points_to_are_on_its_nets_and_made_by_then(
    demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    graph = _graph(sheet, _wires(sheet))
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    place = {s.id: i for i, s in enumerate(plan.steps)}
    told = 0
    for gate in sheet.results.gates:
        at = next(place[s.id] for s in plan.steps if s.gate == gate.letter)
        for reading in gate.readings:
            for joint in reading.suspects:
                told += 1
                assert any(networkx.has_path(graph, joint, e) for e in reading.between)
                assert place.get(f"solder {joint}", -1) < at, (gate.letter, joint)
    assert told > 10
