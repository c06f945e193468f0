"""No iron, no ohms and no hand between power on and power off: demo builds and made-up ones, as
they are printed.

Source: common practice, no source (a live board is not touched; each test under power ends before
the next step).
"""

import re
from collections.abc import Iterator

import pytest
from hypothesis import given, settings

from builder.compute.compute import compute
from builder.compute.order.work_order import Cycle
from builder.pages.blocks import Block, Bullets, GateBar, Section, Step, Table, TwoStacks, WriteIn
from builder.pages.page_text import words
from builder.pages.paper.gate_panel import gate_panels
from builder.pages.sheet_input import SheetInput
from builder.pages.work.gate_procedure import gate_section
from builder.pages.work.plan_items import plan_items
from builder.pipeline.check import Checked
from builder.rules.judge import Verdict
from tests.compute.made_up_builds import CHOICES, Choice, build_of
from tests.compute.power_walk import Line, Stop, walk

pytestmark = pytest.mark.slow  # takes long

BUILDS = ["dipper", "dipper-light", "redshank", "curlew", "pipit"]


def _measures(table: Table) -> bool:
    pieces = (p for row in table.rows for c in row.cells for p in c.pieces)
    return any(isinstance(p, WriteIn) and p.unit == "Ω" for p in pieces)


def _lines(blocks: tuple[Block | Section, ...]) -> Iterator[Line]:
    """The lines of a gate, as they are read from top to bottom."""
    for block in blocks:
        if isinstance(block, Section):
            yield from _lines(block.blocks)
        elif isinstance(block, TwoStacks):
            yield from _lines((*block.first, *block.second))
        elif isinstance(block, Bullets):
            yield from (Line(words(item)) for item in block.items)
        elif isinstance(block, Table):
            yield Line(block.note, _measures(block))


def _step(step: Step) -> Stop:
    units = {w.unit for w in step.write_ins} | {
        "Ω" for w in step.write_ins if "beep" in w.expect or "ring" in w.expect
    }
    hot = any(name == "iron" or "°C" in words(said) for name, said in step.facts)
    return Stop(f"step {step.number}", [Line(words(step.text), hot or "Ω" in units)])


def _stops(sheet: SheetInput, *, paper: bool) -> list[Stop]:
    on_page = [gate_section(sheet, g) for g in sheet.results.gates]
    parts = gate_panels(sheet)[1:] if paper else on_page  # what holds at every one comes first
    gates = {s.heading.split(":")[0]: s for s in parts}
    out = []
    for item in plan_items(sheet, paper=paper):
        if isinstance(item, GateBar):
            out.append(Stop(item.title, list(_lines(gates[item.title].blocks))))
        else:
            out.append(_step(item))
    return out


@pytest.mark.parametrize("name", BUILDS)
@pytest.mark.parametrize("paper", [False, True])
def test_demo_builds_are_worked_on_without_power(demo: Checked, name: str, paper: bool) -> None:
    stops = _stops(demo.sheets[name], paper=paper)
    assert walk(stops) == []
    on = [
        s.name
        for s in stops
        if any("output on" in line.text or "battery" in line.text for line in s.lines)
    ]
    assert len([s for s in on if s.startswith("Gate")]) >= 3  # the walk has seen power go on


@settings(max_examples=60, deadline=None)
@given(CHOICES)
def test_made_up_builds_are_worked_on_without_power(choice: Choice) -> None:
    build = build_of(choice)
    results = compute(build)
    if not isinstance(results.order, Cycle):
        assert walk(_stops(SheetInput(build, results, Verdict((), (), ())), paper=True)) == []


@pytest.mark.parametrize(
    ("texts", "wrong"),
    [
        (["Plug in the battery.", "Solder the red wire."], "ends with the power on"),
        (["Plug in the battery. Unplug the battery."], "charged capacitor"),
        (["Connect the board by USB alone. Check it."], "ends with the power on"),
        (
            ["Switch the output on. Measure each pad. Supply off. Plus to minus reads under 1 V."],
            "under power",
        ),
        (["Plug in the first battery. If it smells, unplug it at once."], "ends with the power on"),
    ],
)
def test_the_walk_finds_what_is_wrong(texts: list[str], wrong: str) -> None:
    found = walk([Stop(f"step {i}", [Line(t)]) for i, t in enumerate(texts, 1)])
    assert any(wrong in f for f in found)


def test_ohms_between_on_and_off_are_found() -> None:
    lines = [
        Line("Switch the output on."),
        Line("", True),
        Line("Supply off. Plus to minus reads under 1 V."),
    ]
    assert walk([Stop("Gate A", lines)]) == ["Gate A: iron or ohms under power"]


@pytest.mark.parametrize("name", BUILDS)
def test_the_last_gate_stands_between_the_closed_frame_and_the_propellers(
    demo: Checked, name: str
) -> None:
    said = [
        (item.title if isinstance(item, GateBar) else words(item.text))
        for item in plan_items(demo.sheets[name])
    ]
    gate = max(i for i, text in enumerate(said) if text.startswith("Gate "))
    closed = next(i for i, text in enumerate(said) if text.startswith("Close the frame"))
    propellers = next(i for i, text in enumerate(said) if re.match(r"Fit [\w ]*propellers", text))
    dry = next(i for i, text in enumerate(said) if "dry" in text and "coating" in text.casefold())
    assert dry < closed < gate < propellers
