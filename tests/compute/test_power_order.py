"""No iron, no ohms and no hand between power on and power off: demo builds and made-up ones, as
they are printed.

Source: common practice, no source (a live board is not touched; each test under power ends before
the next step).
"""

import math
import re
from collections.abc import Iterator

import pytest
from hypothesis import given, settings

from builder.compute.compute import compute
from builder.compute.order.work_order import Cycle
from builder.compute.power_up.emptied import battery_empty
from builder.pages.blocks import Block, Bullets, GateBar, Section, Step, Table, TwoStacks, WriteIn
from builder.pages.page_text import words
from builder.pages.paper.field_words import after_lines
from builder.pages.paper.gate_panel import gate_panels
from builder.pages.sections.setup_tests import setup_tests
from builder.pages.sections.upkeep import upkeep
from builder.pages.sheet_input import SheetInput
from builder.pages.work.gate_lines import limiter
from builder.pages.work.gate_procedure import gate_section
from builder.pages.work.plan_items import plan_items
from builder.pipeline.check import Checked
from builder.rules.judge import Verdict
from tests.compute.made_up_builds import CHOICES, Choice, build_of
from tests.compute.power_walk import Line, Stop, walk, without_one_wait

pytestmark = pytest.mark.slow  # takes long

# anchors of the lists in which power is put on or taken off, and a finger follows
WITH_POWER = (
    "setup-volts-and-current-against-a-meter",
    "setup-when-all-is-done",
    "upkeep-first",
    "upkeep-early",
    "upkeep-tenth",
    "upkeep-crash",
)
BUILDS = ["dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone"]


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
            yield Line("", _measures(block))
            notes = [cell.note for row in block.rows for cell in row.cells]
            yield from (Line(note) for note in (*notes, block.note))


def _step(step: Step) -> Stop:
    units = {w.unit for w in step.write_ins} | {
        "Ω" for w in step.write_ins if "beep" in w.expect or "ring" in w.expect
    }
    hot = any(name == "iron" or "°C" in words(said) for name, said in step.facts)
    return Stop(f"step {step.number}", [Line(words(step.text), hot or "Ω" in units)])


def _lists(sheet: SheetInput) -> list[Stop]:
    """Lists in which power goes on and off beside the order of work: readings against a meter, after
    a flight, after a crash, the field card. Where a list begins with power from before, it says so.
    """
    found = {s.anchor: s for s in _sections((setup_tests(sheet), upkeep(sheet)))}
    names = [n for n in found if n in WITH_POWER]
    stops = [Stop(found[n].heading, list(_lines(found[n].blocks))) for n in names]
    empty = battery_empty(sheet.build, sheet.results.gates)
    alone = Line(words(limiter(sheet.results.gates[-1]).pieces))
    return [
        *stops,
        Stop("after each flight", [Line(" ".join(after_lines(empty)))]),
        Stop("battery in place of a supply", [alone]),
    ]


def _sections(blocks: tuple[Block | Section, ...]) -> Iterator[Section]:
    for block in blocks:
        if isinstance(block, Section):
            yield block
            yield from _sections(block.blocks)


def _stops(sheet: SheetInput, *, paper: bool) -> list[Stop]:
    on_page = [gate_section(sheet, g) for g in sheet.results.gates]
    parts = gate_panels(sheet)[1:] if paper else on_page  # what holds at every one comes first
    gates: dict[str, list[Block | Section]] = {}
    for part in parts:  # a long gate goes on in a part of its own
        gates.setdefault(part.heading[: len("Gate A")], []).extend(part.blocks)
    out = []
    for item in plan_items(sheet, paper=paper):
        if isinstance(item, GateBar):
            out.append(Stop(item.title, list(_lines(tuple(gates[item.title])))))
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


@pytest.mark.parametrize("name", BUILDS)
def test_lists_beside_the_order_of_work_are_followed_without_power(
    demo: Checked, name: str
) -> None:
    stops = _lists(demo.sheets[name])
    assert len(stops) == 2 + len(WITH_POWER)
    assert walk(stops) == []


@pytest.mark.parametrize("name", BUILDS)
@pytest.mark.parametrize("paper", [False, True])
def test_each_wait_for_an_empty_capacitor_is_needed(demo: Checked, name: str, paper: bool) -> None:
    """A sheet without one of them is found."""
    sheet = demo.sheets[name]
    stops = [*_stops(sheet, paper=paper), *_lists(sheet)]
    mutants = [found for stop in stops for found in without_one_wait(stop)]
    assert len(mutants) > 20
    missed = [(mutant.name, wait) for wait, mutant in mutants if not walk([mutant])]
    # the check by the meter after the resistor, which emptied the capacitor before it
    assert missed == [
        ("Volts and current against a meter", battery_empty(sheet.build, sheet.results.gates))
    ]


def test_the_resistor_stays_on_long_enough_where_no_meter_can_say_when(demo: Checked) -> None:
    """R·C·ln(U / 1 V) of the discharge of a capacitor (IEC 60050-131, exponential decay), by hand."""
    for name in BUILDS:
        sheet = demo.sheets[name]
        said = " ".join(line.text for stop in _lists(sheet) for line in stop.lines)
        (hold,) = re.findall(
            r"resistor across plus and minus at \S+(?: and \S+)? for (\d+) s", said
        )
        found = sheet.results.gates[-1].discharge
        if found.farads is not None and found.volts is not None:
            assert int(hold) >= 2 * found.ohms * found.farads * math.log(found.volts)
        assert int(hold) >= 10


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
        (["Unplug the battery. Measure each pad."], "under power"),
        (["Connect the board by USB alone. Unplug USB. Beep-test all."], "under power"),
        (["Plug in, read, unplug, take the meter off."], "'take the meter off' under power"),
        (["Supply off. Fix the probe."], "'Fix the probe' under power"),
        (["Supply, battery and USB are unplugged. Tin the pads."], "'Tin the pads' under power"),
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
    shut = re.compile(r"Close the frame|Look at .* from all sides")  # a cover is on by then
    closed = next(i for i, text in enumerate(said) if shut.match(text))
    propellers = next(i for i, text in enumerate(said) if re.match(r"Fit [\w ]*propellers", text))
    dry = next(i for i, text in enumerate(said) if "dry" in text and "coating" in text.casefold())
    assert dry < closed < gate < propellers
