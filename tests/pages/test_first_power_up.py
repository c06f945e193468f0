"""What a gate tells the bench: a head and an end with boxes, the limiter alone, what is not known.
Common practice, no source.
"""

import re

import pytest

from builder.compute.compute import compute
from builder.compute.order.work_order import Plan
from builder.model.build import Build
from builder.pages.blocks import Block, Bullets, Facts, Paragraph, Section, Table, Tick, TwoStacks
from builder.pages.page_text import words
from builder.pages.paper.gate_panel import gate_panels
from builder.pages.sections.first_power_up import first_power_up
from builder.pages.sections.setup_tests import setup_tests
from builder.pages.sheet_input import SheetInput
from builder.pages.work.bench_things import things
from builder.pages.work.gate_procedure import gate_section
from builder.pipeline.check import Checked
from builder.rounding import rounded
from builder.rules.judge import Verdict
from tests.compute.small_workspace import one_build
from tests.compute.test_power_gates import BUILD, PLUGGED, SHELF, SOCKETS

BUILDS = ["dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone"]


def _texts(blocks: tuple[Block | Section, ...]) -> list[str]:
    """All that is read, in its order; a line with a box begins with `[ ]`."""
    out = []
    for block in blocks:
        if isinstance(block, Section):
            out += [block.heading, *_texts(block.blocks)]
        elif isinstance(block, TwoStacks):
            out += _texts((*block.first, *block.second))
        elif isinstance(block, Bullets):
            out += [
                ("[ ] " if any(isinstance(p, Tick) for p in item) else "") + words(item)
                for item in block.items
            ]
        elif isinstance(block, Paragraph):
            out.append(words(block.pieces))
        elif isinstance(block, Facts):
            out += [f"{name}: {words(cell.pieces)} {cell.note}" for name, cell in block.items]
        elif isinstance(block, Table):
            out.append(block.caption)
            out += [
                "; ".join(f"{words(c.pieces)} {c.note}".strip() for c in row.cells)
                for row in block.rows
            ]
            out.append(block.note)
    return out


def _gates(sheet: SheetInput, *, paper: bool = False) -> list[list[str]]:
    on_page = [gate_section(sheet, g) for g in sheet.results.gates]
    parts = gate_panels(sheet)[1:] if paper else on_page  # what holds at every one comes first
    gates: dict[str, list[str]] = {}
    for part in parts:  # a long gate goes on in a part of its own
        lines = gates.setdefault(part.heading[: len("Gate A")], [part.heading])
        lines += _texts(part.blocks)
    return list(gates.values())


def _sheet(build: Build) -> SheetInput:
    return SheetInput(build, compute(build), Verdict((), (), ()))


def _ends(sheet: SheetInput) -> str:
    """The plug of the one battery, or plus and minus of two in series."""
    two = "pigtail.1.PLUS and pigtail.2.MINUS"
    return two if sheet.build.parts["pigtail"].count == 2 else "pigtail"


def _flown(sheet: SheetInput) -> str:
    """What is unplugged: one of two in series alone leaves the other on the wires."""
    return "every battery" if sheet.build.parts["pigtail"].count == 2 else "battery"


def _at(lines: list[str], start: str) -> int:
    return next(i for i, line in enumerate(lines) if line.startswith(start))


def _first_beep(lines: list[str]) -> int:
    """Where the readings begin on paper, whose table has no words above it."""
    return next(i for i, line in enumerate(lines) if "beep" in line and not line.startswith("[ ]"))


@pytest.mark.parametrize("name", BUILDS)
@pytest.mark.parametrize("paper", [False, True])
def test_every_gate_has_a_head_and_an_end_as_lines_with_boxes(
    demo: Checked, name: str, paper: bool
) -> None:
    sheet = demo.sheets[name]
    gates = _gates(sheet, paper=paper)
    assert len(gates) == len(sheet.results.gates)
    for lines in gates:
        order = [
            _at(lines, "[ ] Supply, battery and USB are unplugged. Plus to minus"),
            _first_beep(lines) if paper else _at(lines, "Power off: beep test and ohms"),
            _at(lines, "[ ] The propellers are off."),
            _at(lines, "[ ] Supply: output off. Set "),
            _at(lines, "[ ] Set the current limit to "),
            _at(lines, "[ ] Connect the lead at pigtail"),
            _at(lines, "[ ] Check the polarity again"),
            _at(lines, "[ ] Switch the output on. The limit lamp may flash for 0."),
            _at(
                lines, "[ ] Hold the insulated 1 kΩ, 2 W resistor across plus and minus at pigtail"
            ),
            _at(lines, "[ ] Never short plus to minus with a tool."),
            _at(lines, f"[ ] Wait until plus to minus at {_ends(sheet)} reads under 1 V."),
        ]
        assert order == sorted(order)
    for lines in gates[:-1]:
        assert f"[ ] Supply off. Unplug its lead at the aircraft ({_ends(sheet)})." in lines


def test_nothing_says_that_power_stays_on(demo: Checked) -> None:
    for sheet in demo.sheets.values():
        text = " ".join(_texts(first_power_up(sheet).blocks))
        assert "stays on" not in text.replace("If it stays on, switch off.", "")
        assert (
            "Leave connected what has passed. Before you touch anything: supply off, then wait until"
            f" plus to minus at {_ends(sheet)} reads under 1 V." in text
        )


def test_the_discharge_says_that_it_is_computed(demo: Checked) -> None:
    """Dipper: 1 kΩ, 470 µF, 16.8 V: 0.47 s x ln 16.8 = 1.33 s. Pipit has no capacitor, so no time
    is made up.
    """
    line = next(x for x in _gates(demo.sheets["dipper"])[0] if x.startswith("[ ] Wait until"))
    assert "About 1.3 s, computed by R·C·ln(V / 1 V) for 470 µF from 16.8 V" in line
    line = next(x for x in _gates(demo.sheets["pipit"])[0] if x.startswith("[ ] Wait until"))
    assert not re.search(r"\d s\b", line)


def test_the_limiter_alone_is_rated_at_each_gate(demo: Checked) -> None:
    for name, sheet in demo.sheets.items():
        gates = _gates(sheet)
        for gate, lines in zip(sheet.results.gates, gates, strict=True):
            line = next(
                x for x in lines if x.startswith("Without a bench supply. Series limiter: ")
            )
            assert gate.power.limiter is not None, name
            assert f"trips at {rounded(gate.power.limiter[1], 2)} A at most" in line
            taken_out = (
                "Put it in again: a wire may be pinched now."
                if gate.closing
                else "Leave it in for all of this gate."
            )
            assert taken_out in line


def test_where_a_draw_is_not_known_no_rating_and_no_band_are_made_up() -> None:
    sheet = _sheet(one_build(SHELF.replace("draw: {typical: 148 mA}", ""), BUILD))
    lines = _gates(sheet)[2]
    assert any(
        "rating not known: the draw of esc, rx is not known. Do not plug a battery in" in x
        for x in lines
    )
    assert any(
        x.startswith("Current to expect: not known: draw of esc, rx; note it") for x in lines
    )
    assert any(
        x.startswith(
            "[ ] Supply: note the current it settles at: the draw of esc, rx is not known."
        )
        for x in lines
    )


def test_a_build_without_a_supply_gets_its_limiter_and_resistor_ready_for_the_first_gate(
    demo: Checked,
) -> None:
    sheet = demo.sheets["dipper"]
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    own = {t.key: t for t in things(sheet.build, plan, sheet.results.gates, consumable=False)}
    assert own["need-bleeder"].wanted == "gate A"
    assert own["need-bleeder"].name == "Resistor 1 kΩ, 2 W"
    assert own["need-limiter"].wanted.startswith("step ")
    assert re.search(
        r"first battery and gate [A-Z and]+: carries 0.52 A, trips at 0.87 A at most",
        own["need-limiter"].note,
    )
    assert "kind, for 16.8 V or more;" in own["need-limiter"].note
    bare = _sheet(one_build(SHELF, BUILD))
    assert isinstance(bare.results.order, Plan)
    asked = {
        t.key: t
        for t in things(bare.build, bare.results.order, bare.results.gates, consumable=False)
    }
    assert asked["need-limiter"].wanted == "gate A"
    assert "gate A: carries 0.06 A, trips at 0.30 A at most" in asked["need-limiter"].note
    assert asked["need-supply"].wanted == "gate A"


@pytest.mark.parametrize("name", BUILDS)
def test_without_a_supply_each_gate_has_its_limiter_on_the_bench(demo: Checked, name: str) -> None:
    """A gate that asks for a smaller limiter than was got ready is passed with one that protects
    nothing.
    """
    sheet = demo.sheets[name]
    assert isinstance(sheet.results.order, Plan)
    plan, gates = sheet.results.order, sheet.results.gates
    laid = {t.key: t.note for t in things(sheet.build, plan, gates, consumable=False)}
    for lines in _gates(sheet):
        asked = next(
            m for x in lines if (m := re.search(r"carries [\d.]+ A, trips at [\d.]+ A", x))
        )
        assert asked[0] in laid["need-limiter"]
        letter = lines[0][len("Gate ")]
        assert re.search(rf"gate [A-Z and]*{letter}\b[^;]*{asked[0]}", laid["need-limiter"])


@pytest.mark.parametrize("name", BUILDS)
def test_without_a_supply_what_a_limiter_cannot_show_is_not_read(demo: Checked, name: str) -> None:
    """It has neither a knob nor an ammeter."""
    sheet = demo.sheets[name]
    text = " ".join(_texts(first_power_up(sheet).blocks))
    assert "The current cannot be read" in text
    assert "Each gate names its own limiter." in text
    for lines in _gates(sheet):
        of_supply = [x for x in lines if re.search(r"current it settles|[Ss]et .*(V\.|limit)", x)]
        assert len(of_supply) == 3
        assert all(re.match(r"\[ \] (Supply|Set the current limit)", x) for x in of_supply)


def test_the_resistor_and_the_lead_name_both_connectors_of_batteries_in_series(
    demo: Checked,
) -> None:
    """Across one of two connectors in series lies nothing of the capacitor."""
    sheet = demo.sheets["turnstone"]
    two = "pigtail.1.PLUS and pigtail.2.MINUS"
    for lines in _gates(sheet):
        assert lines[_at(lines, "[ ] Hold the insulated")].endswith(f"minus at {two}.")
    assert isinstance(sheet.results.order, Plan)
    laid = things(sheet.build, sheet.results.order, sheet.results.gates, consumable=False)
    (lead,) = [t for t in laid if t.key == "need-supply-lead"]
    assert lead.wanted == "gate A"
    assert "red to pigtail.1.PLUS, black to pigtail.2.MINUS" in lead.note


def test_a_contact_out_of_reach_is_said_and_has_no_box() -> None:
    shelf = SOCKETS.replace(
        "5V1: {role: supply, rail: 5V}", "5V1: {role: supply, rail: 5V, pitch: 0.8 mm}"
    )
    lines = _gates(_sheet(one_build(shelf, PLUGGED)))[1]
    assert "fc.5V1; no open pad: not measured here; ; " in lines
    assert any(x.startswith("esc.B+ for fc.IN: same net, open pad") for x in lines)


@pytest.mark.parametrize("name", BUILDS)
def test_the_last_gate_tries_all_once_and_ends_before_the_propellers(
    demo: Checked, name: str
) -> None:
    lines = _gates(demo.sheets[name])[-1]
    battery = _flown(demo.sheets[name]).replace("battery", "the battery", name != "turnstone")
    outdoors = ["[ ] Now go outdoors, unplugged"] if name in ("turnstone", "curlew") else []
    order = [
        _at(lines, "Power off: beep test and ohms"),
        _at(lines, "[ ] Switch the output on."),
        _at(lines, "[ ] Take the limiter out, if one is in."),
        *(_at(lines, line) for line in outdoors),
        _at(lines, f"[ ] Keep everything clear of the motors. Plug in {battery}"),
        _at(lines, f"[ ] Turn each of the {6 if name == 'turnstone' else 4} motors once"),
        _at(lines, "[ ] Arm: the motors idle."),
        _at(lines, "[ ] Arm, then switch the transmitter off."),
        _at(lines, f"[ ] Unplug {battery} at the aircraft."),
        _at(lines, "[ ] Only now fit the propellers."),
    ]
    assert order == sorted(order)


def test_the_tests_before_the_first_flight_say_what_feeds_them_and_end_unplugged(
    demo: Checked,
) -> None:
    for sheet in demo.sheets.values():
        lines = [x for x in _texts(setup_tests(sheet).blocks) if x.startswith("[ ]")]
        assert any("Power: USB alone." in x for x in lines)
        assert any("only if the board's maker allows it" in x for x in lines)
        assert (
            lines[-1]
            == f"[ ] Unplug USB and {_flown(sheet)}. Check that plus to minus at {_ends(sheet)} reads under 1 V."
        )
        meters = [x.casefold() for x in lines if re.search(r"Plug in.*, read", x)]
        assert len(meters) == 2
        for line in meters:
            before, _, after = re.sub(" through the limiter", "", line).partition("plug in, read")
            assert re.search(r"unplug (the|every) battery\..*(fix|put) the meter", before)
            ends = re.escape(_ends(sheet).casefold())
            emptied = rf"wait until plus to minus at {ends} reads under 1 v|hold the insulated .* for \d+ s"
            assert re.match(rf", unplug\. ({emptied})\. take the meter", after)


@pytest.mark.parametrize("name", BUILDS)
def test_the_minus_probe_is_clipped_to_a_contact_that_is_there(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    said = re.compile(r"Clip its minus probe to (\S+), battery minus, now, with the power off")
    found = [m[1] for lines in _gates(sheet) for x in lines if (m := said.search(x))]
    assert len(found) >= len(sheet.results.gates) - 1  # nothing is read in a closed frame
    for contact in found:
        pad = sheet.build.pad(sheet.build.by_name[contact])
        assert pad.battery and pad.role == "ground"


def test_batteries_that_fly_joined_are_measured_marked_and_limited_at_every_gate(
    demo: Checked,
) -> None:
    """Where the battery feeds a gate, what holds of two of them stands there, not at a later step."""
    said = " ".join(_texts(first_power_up(demo.sheets["turnstone"]).blocks))
    rules = said[said.index("Without a bench supply") :]
    assert re.search(r"Measure the volts of each battery.*only if they differ by 0\.20 V", rules)
    assert "Write on each which one it is." in rules
    assert "one after the other. One goes through the limiter" in rules
    alone = " ".join(_texts(first_power_up(demo.sheets["dipper"]).blocks))
    assert "Measure the volts of each battery" not in alone
    plan = demo.sheets["turnstone"].results.order
    assert isinstance(plan, Plan)
    ids = [step.id for step in plan.steps]
    match = next(step for step in plan.steps if step.id == "match")
    assert [m.unit for m in match.measures] == ["V", "V"], "a blank for each"
    assert ids.index("pair-marked") < ids.index("match") < ids.index("first pack")


@pytest.mark.parametrize("name", BUILDS)
def test_the_battery_alone_without_a_fan_is_on_for_as_long_as_the_gate_allows(
    demo: Checked, name: str
) -> None:
    gate = demo.sheets[name].results.gates[-1]
    lines = _texts(gate_section(demo.sheets[name], gate).blocks)
    plugged = next(
        i for i, line in enumerate(lines) if re.search("Plug in (the|every) battery", line)
    )
    armed = next(i for i, line in enumerate(lines) if "] Arm" in line)
    assert any(
        f"at most {rounded(gate.dwell, 0)} s at a time" in line for line in lines[plugged:armed]
    )
