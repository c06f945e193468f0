"""No hardware makes our own constraints contradict each other; a cycle is a fault only with a line
of the builder's.
"""

from dataclasses import replace
from pathlib import Path

import networkx
import pytest

from builder.compute.circuit.nets import netlist
from builder.compute.circuit.rails import power
from builder.compute.compute import compute
from builder.compute.joints.joints import joints
from builder.compute.order.constraints.order_cycle import find_cycle, loosened
from builder.compute.order.steps.work_step import Constraint, Why
from builder.compute.order.work_order import Lines, Plan, order_lines
from builder.compute.power_up.power_gates import power_gates
from builder.model.build import Build
from tests.compute.hardware_combos import combo
from tests.rules.altered_demo import Tree, case_of, said, verdict_of, wire

pytestmark = pytest.mark.slow  # takes long

HOW_MANY = 200
CONTRADICTS = "bench/order-contradicts"


def _lines(build: Build) -> Lines:
    nets = netlist(build)
    return order_lines(build, joints(build, nets), power_gates(build, nets, power(build, nets)))


def _acyclic(lines: Lines) -> bool:
    """Told by networkx, not by our own search."""
    return networkx.is_directed_acyclic_graph(
        networkx.DiGraph([(c.before, c.after) for c in lines.all])
    )


@pytest.mark.parametrize("first", range(0, HOW_MANY, 20))
def test_no_hardware_contradicts_itself(first: int) -> None:
    for seed in range(first, first + 20):
        lines = _lines(combo(seed))
        assert _acyclic(lines), seed
        assert {s.id for s in lines.base_steps.values()} <= set(lines.steps)
        assert not [c for c in lines.dropped if c.why == Why.BUILDER]
        assert not [c for c in lines.dropped if c.why == Why.SAFETY], (seed, lines.dropped)


@pytest.mark.parametrize("seed", [1, 4])
def test_the_whole_order_is_made(seed: int) -> None:
    plan = compute(combo(seed)).order
    assert isinstance(plan, Plan)
    place = {s.id: i for i, s in enumerate(plan.steps)}
    assert all(place[c.before] < place[c.after] for c in plan.constraints)


CAP_PADS = """
esc-cap:
  kind: speed-controller
  name: Speed controller with contacts for a capacitor
  mass: {measured: 8.7 g}
  supply: {pad: BAT+, accepts: 9-18 V, draw: {idle: 30 mA}}
  cells: 3-4S
  continuous: 25 A
  channels: 1
  edges: {rear: [CAP-, BAT-, BAT+, CAP+], front: [A, B, C]}
  pads:
    BAT+: {role: draws, battery: yes, polarity: plus, pitch: 6 mm, gap: 2 mm, pad_size: 4 x 4 mm, copper: power}
    BAT-: {role: ground, battery: yes, polarity: minus, pitch: 6 mm, gap: 2 mm, pad_size: 4 x 4 mm, copper: plane}
    CAP+: {role: draws, battery: yes, polarity: plus, joined_to: BAT+, pad_size: 3 x 3 mm, copper: power}
    CAP-: {role: ground, battery: yes, polarity: minus, joined_to: BAT-, pad_size: 3 x 3 mm, copper: plane}
    A: {role: phase, copper: power}
    B: {role: phase, copper: power}
    C: {role: phase, copper: power}
    S: {role: drive-in}
"""


def _own_pads(tree: Tree) -> None:
    """The capacitor on contacts that the demo's speed controller gets beside its battery contacts."""
    for sign, pad in (("PLUS", "+"), ("MINUS", "-")):
        wire(tree, f"capacitor.{sign}", f"esc.BAT{pad}")["to"] = f"esc.CAP{pad}"


def _four_singles(tree: Tree, *, capacitors: bool) -> None:
    """Four single speed controllers in place of the one, each fed from the connector."""
    tree["parts"]["esc"] = {"use": "esc-cap", "count": "4"}
    tree["parts"].pop("harness")
    tree["plugs"] = []
    kept = [w for w in tree["wires"] if not w["to"].startswith("esc.")]
    thick = {"gauge": "18 AWG", "length": "85 mm"}
    for n in range(1, 5):
        kept += [
            {"from": f"pigtail.{p}", "to": f"esc.{n}.BAT{s}", **thick}
            for p, s in (("PLUS", "+"), ("MINUS", "-"))
        ]
        kept += [{"from": f"motor.{n}.{x}", "to": f"esc.{n}.{x}", "lead": "fitted"} for x in "ABC"]
        if capacitors:
            kept += [
                {"from": f"capacitor.{n}.{p}", "to": f"esc.{n}.CAP{s}", "lead": "fitted"}
                for p, s in (("PLUS", "+"), ("MINUS", "-"))
            ]
    if capacitors:
        tree["parts"]["capacitor"]["count"] = "4"
    else:
        tree["parts"].pop("capacitor")
    tree["wires"] = kept
    tree["setup"]["serial"] = [s for s in tree["setup"]["serial"] if s["serves"] != "esc"]


def _two_control_boards(tree: Tree) -> None:
    tree["parts"]["second"] = dict(tree["parts"]["controller"])
    tree["wires"] += [
        {"from": "second.BZ+", "to": "esc.BAT+", "gauge": "26 AWG", "length": "60 mm"},
        {"from": "second.GND4", "to": "esc.BAT-", "gauge": "26 AWG", "length": "60 mm"},
    ]


@pytest.mark.parametrize("name", ["singles", "singles with capacitors", "two control boards"])
def test_altered_demo_builds_are_not_refused(tmp_path: Path, name: str) -> None:
    changes = {
        "singles": lambda t: _four_singles(t, capacitors=False),
        "singles with capacitors": lambda t: _four_singles(t, capacitors=True),
        "two control boards": _two_control_boards,
    }
    case = case_of(tmp_path, "dipper", changes[name], CAP_PADS)
    assert isinstance(case.whole.order, Plan)
    assert [s for s in said(verdict_of(case), "bench") if s.startswith(CONTRADICTS)] == []


def test_a_capacitor_on_pads_of_its_own(tmp_path: Path) -> None:
    def change(tree: Tree) -> None:
        _own_pads(tree)
        tree["parts"]["esc"]["use"] = "esc-own"

    shelf = (Path(__file__).resolve().parents[2] / "builds/shelf/boards.yaml").read_text("utf-8")
    own = "esc-own:" + shelf.split("esc-weir:")[1].split("\nesc-lockgate:")[0]
    pads = (
        "    CAP+: {role: draws, battery: yes, polarity: plus, joined_to: BAT+, pad_size: 3 x 3"
        " mm}\n    CAP-: {role: ground, battery: yes, polarity: minus, joined_to: BAT-, pad_size: 3"
        " x 3 mm}\n"
    )
    case = case_of(tmp_path, "dipper", change, own.replace("  pads:\n", "  pads:\n" + pads))
    assert isinstance(case.whole.order, Plan)
    place = {s.id: i for i, s in enumerate(case.whole.order.steps)}
    assert place["solder esc.CAP-"] < place["solder esc.CAP+"] < place["gate A"]
    assert place["solder esc.BAT-"] < place["solder esc.BAT+"] < place["gate A"]


def test_the_softest_of_a_cycle_goes() -> None:
    ease = Constraint("a", "b", "less work", Why.EASE)
    need = Constraint("b", "c", "it cannot be done", Why.NEED)
    safe = Constraint("c", "a", "somebody is hurt", Why.SAFETY)
    assert loosened("abc", [safe, ease, need]) == ((safe, need), (ease,))
    assert loosened("abc", [safe, replace(ease, why=Why.SAFETY), need])[1] == (need,)
    mine = replace(ease, why=Why.BUILDER)
    assert loosened("abc", [safe, mine, need]) == ((safe, mine, need), ())
    assert find_cycle("abc", [safe, mine, need])
