"""A meter and a lens at the bench, for tests: wirings with one fault put in, who has power in them,
and the page's questions answered.

Written apart from what asks: wiring and readings are those of a graph that networkx makes.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import networkx

from builder.model.source.electrical import Pad
from builder.pages.sheet_input import SheetInput

Wire = tuple[str, str]
BEEP = re.compile(r"beep test (\S+) to (\S+)\. Does")
VOLTS = re.compile(r"Red probe on (\S+): is it")


@dataclass(frozen=True)
class Wiring:
    """A build with one fault: its wires, the words that the cause is known by, and what is dead."""

    wires: tuple[Wire, ...]
    cause: str
    dead: str = ""


def wires_of(sheet: SheetInput) -> list[Wire]:
    """The wires as soldered."""
    return [(str(r.start), str(r.end)) for r in sheet.build.wires]


def kind_at(sheet: SheetInput, end: str) -> str:
    """What kind of part a contact is on."""
    return sheet.build.parts[end.split(".")[0]].part.KIND


def graph_of(sheet: SheetInput, wires: tuple[Wire, ...] | list[Wire]) -> "networkx.Graph[str]":
    """What conducts to what, with the power off."""
    graph: networkx.Graph[str] = networkx.Graph()
    graph.add_nodes_from(str(c) for c in sheet.build.contacts)
    inside = [(str(j.a), str(j.b)) for j in sheet.results.netlist.joins if j.by != "wire"]
    windings: list[Wire] = []
    for name, fitted in sheet.build.parts.items():
        if fitted.part.KIND == "motor":
            for piece in fitted.pieces:
                at = f"{name}.{piece}" if piece else name
                windings += pairwise(f"{at}.{pad}" for pad in fitted.part.pads)
    graph.add_edges_from([*wires, *inside, *windings])
    return graph


def _boards(sheet: SheetInput) -> dict[str, dict[str, Pad]]:
    """Every piece by name, with its contacts."""
    out: dict[str, dict[str, Pad]] = {}
    for name, fitted in sheet.build.parts.items():
        for piece in fitted.pieces:
            board = f"{name}.{piece}" if piece else name
            out[board] = {f"{board}.{pad}": own for pad, own in fitted.part.pads.items()}
    return out


def has_power(sheet: SheetInput, wiring: Wiring) -> set[str]:
    """The contacts that are at a plus with the power on: from the battery outwards, board by board,
    each of which gives what it gives once it has its own supply and its ground.
    """
    graph, boards = graph_of(sheet, wiring.wires), _boards(sheet)
    ends = [(name, p) for pads in boards.values() for name, p in pads.items() if p.battery]
    poles = [(n, p) for n, p in ends if kind_at(sheet, n) == "connector"] or ends
    plus = next(n for n, p in poles if p.polarity == "plus" or p.role == "draws")
    minus = next(n for n, p in poles if p.polarity == "minus" or p.role == "ground")
    lives = set(networkx.node_connected_component(graph, plus))
    returns = networkx.node_connected_component(graph, minus)
    while True:
        before = len(lives)
        for board, pads in boards.items():
            fed = any(n in lives and p.role == "draws" for n, p in pads.items())
            grounded = any(n in returns for n, p in pads.items() if p.role == "ground")
            if not (fed and grounded) or board == wiring.dead:
                continue
            for name, pad in pads.items():
                if pad.role == "supply" and pad.rail and f"{board} {pad.rail}" != wiring.dead:
                    lives |= networkx.node_connected_component(graph, name)
        if len(lives) == before:
            return lives


def causes_below(tree: list[Any]) -> list[int]:
    """Every cause that a tree can end with."""
    return tree[0] if len(tree) == 1 else causes_below(tree[1]) + causes_below(tree[2])


def answered(
    data: Mapping[str, Any], symptom: Mapping[str, Any], sheet: SheetInput, wiring: Wiring
) -> tuple[int, list[str]]:
    """How often somebody looks or measures who sees nothing by eye, and the causes that are left."""
    tree, graph, lives = symptom["tree"], graph_of(sheet, wiring.wires), has_power(sheet, wiring)
    count = 1 if symptom["look"] else 0
    while len(tree) == 3:
        words = data["readings"][tree[0]]
        beep, volts = BEEP.search(words), VOLTS.search(words)
        assert beep or volts, words
        count += 1
        if beep:
            yes = networkx.has_path(graph, beep[1], beep[2])
        else:
            assert volts is not None
            yes = volts[1] in lives
        tree = tree[1] if yes else tree[2]
    return count, [data["causes"][i] for i in tree[0]]
