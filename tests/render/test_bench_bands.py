"""What the page at the bench passes, over all demo builds: the bands as the page has them and the
script's own judge, against nets that are followed here once more, wire by wire.
"""

from collections.abc import Iterator
from itertools import pairwise

import pytest
from playwright.sync_api import Browser
from playwright.sync_api import Page as Tab

from builder.compute.power_up.gate_readings import GateReading
from builder.compute.power_up.pair_readings import by_pair
from builder.model.build import Build, Contact
from builder.pages.bench.at_bench_page import bench_data
from builder.pages.bench.bands import Band, bands_of
from builder.pages.bench.screens import screens_of
from builder.pages.bench.trouble import trouble_of
from builder.pipeline.check import Checked
from builder.render.assets import asset_files

BUILDS = ("curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone")
JOINED = ("beep", "0", "0.0 Ω", "0,2", "300 mΩ", "3 ohm")  # what a short reads
APART = ("no beep", "OL", "1.2 MΩ", "5k", "silence")  # what an open joint reads


@pytest.fixture(scope="module")
def judge(browser: Browser) -> Iterator[Tab]:
    tab = browser.new_page()
    tab.set_content('<script id="bench-data" type="application/json">{"words": {}}</script>')
    tab.add_script_tag(content=asset_files(None)["assets/bench-judge.js"].decode())
    yield tab
    tab.close()


def _verdicts(tab: Tab, asked: list[tuple[Band, str]]) -> list[str]:
    rows = [[band.as_plain(), text] for band, text in asked]
    found = tab.evaluate("rows => rows.map(r => bench.judge(r[0], r[1]).verdict)", rows)
    return [str(v) for v in found]


def _reached(build: Build, start: Contact) -> set[Contact]:
    """Contacts that copper joins to one: wires, and what a board says is one inside it."""
    found, edge = {start}, [start]
    while edge:
        here = edge.pop()
        own = build.parts[here.part].part.pads
        pad = own[here.pad]
        ground = {n for n, p in own.items() if p.role == pad.role == "ground"}
        rail = {n for n, p in own.items() if pad.rail and p.rail == pad.rail}
        inside = {Contact(here.part, here.piece, n) for n in ground | rail | set(pad.joined_to)}
        ends = [(w.start, w.end) for w in build.wires if here in (w.start, w.end)]
        new = (inside | {c for pair in ends for c in pair}) - found
        found |= new
        edge += new
    return found


def _pairs(build: Build, label: str) -> list[tuple[Contact, Contact]]:
    """The contacts that a label names: two, or those that stand side by side on an edge."""
    known = {str(c): c for c in build.contacts}
    first, _, second = label.partition(" to ")
    if first in known and second in known:
        return [(known[first], known[second])]
    board, _, edge = first.partition(", ")
    if not edge.endswith(("edge", "underside")):
        return []
    row = [known[f"{board}.{pad}"] for pad in second.split()]
    return list(pairwise(row))


def _carries(build: Build, at: Contact) -> set[str]:
    pads = [build.pad(c) for c in _reached(build, at)]
    said = {"ground" for p in pads if p.role == "ground"}
    said |= {"battery" for p in pads if p.battery and p.role != "ground"}
    return said | {"rail" for p in pads if p.role == "supply"}


@pytest.mark.parametrize("name", BUILDS)
def test_a_short_that_would_burn_is_never_passed(demo: Checked, judge: Tab, name: str) -> None:
    sheet = demo.sheets[name]
    seen = 0
    for band in bands_of(sheet):
        if not band.gate or band.kind not in ("open", "charges", "alike"):
            continue
        for a, b in _pairs(sheet.build, band.label):
            one, two = _carries(sheet.build, a), _carries(sheet.build, b)
            if b in _reached(sheet.build, a) or not (one and two) or one == two:
                continue
            seen += 1
            assert band.danger, band.name
            assert set(_verdicts(judge, [(band, t) for t in JOINED])) == {"wrong"}, band.name
    assert seen >= 8


@pytest.mark.parametrize("name", BUILDS)
def test_one_net_beeps_and_that_is_right(demo: Checked, judge: Tab, name: str) -> None:
    """Of what shall be joined, a beep is right and no beep is wrong; at the battery no reason
    passes that.
    """
    sheet = demo.sheets[name]
    seen = 0
    for band in bands_of(sheet):
        for a, b in _pairs(sheet.build, band.label):
            if band.unit != "Ω" or b not in _reached(sheet.build, a):
                continue
            seen += 1
            assert _verdicts(judge, [(band, "beep"), (band, "0,3 Ω")]) == ["right", "right"]
            assert set(_verdicts(judge, [(band, t) for t in APART])) == {"wrong"}, band.name
            battery = sheet.build.pad(a).battery or sheet.build.pad(b).battery
            assert band.danger or not battery, band.name
    assert seen >= 8


def test_neighbours_of_one_net_are_asked_for_apart(demo: Checked, judge: Tab) -> None:
    """A demo edge gets two grounds side by side: they beep, and the rest of the edge does not."""
    sheet = demo.sheets["redshank"]
    build, nets = sheet.build, sheet.results.netlist
    row = [Contact("controller", 0, p) for p in ("GND1", "GND2", "5V1")]
    pairs = tuple(pairwise(row))
    edge = GateReading(("controller, left edge", "GND1 GND2 5V1"), "no beep", "", pairs=pairs)
    rest, same = by_pair(build, nets, edge)
    assert rest.pairs == (pairs[1],)
    assert (same.between, same.pairs) == (("controller.GND1", "controller.GND2"), (pairs[0],))
    assert same.expect.startswith("beeps")


@pytest.mark.parametrize("name", BUILDS)
def test_each_wire_has_a_field(demo: Checked, name: str) -> None:
    """Every wire of a load is read end to end by itself, at a gate or before its board is mounted."""
    sheet = demo.sheets[name]
    read = {frozenset(p) for b in bands_of(sheet) for p in _pairs(sheet.build, b.label)}
    passive = {"Connector", "Capacitor", "Motor"}
    for run in sheet.build.wires:
        kinds = {type(sheet.build.parts[c.part].part).__name__ for c in (run.start, run.end)}
        if not kinds & passive and run.start.board != run.end.board:
            assert frozenset((run.start, run.end)) in read, str(run.start)
    assert all(b.kind != "kept" or "wire" not in b.label for b in bands_of(sheet))


@pytest.mark.parametrize("name", BUILDS)
def test_bands_hold_what_the_model_says(demo: Checked, judge: Tab, name: str) -> None:
    """What the build itself is computed to weigh, to measure and to read is right; far beyond it is
    not, and wrong where the maker states how far a rail may be off.
    """
    sheet = demo.sheets[name]
    own: list[tuple[Band, float]] = []
    bands = {b.key: b for b in bands_of(sheet)}
    for line in sheet.results.mass.lines:
        band = bands.get(f"weigh-part-{line.key}")
        if band is not None:
            own.append((band, 1000 * getattr(line.line, "value", 0.0)))
    for run in sheet.build.wires:
        metres = run.wire.length
        found = [bands.get(f"cut-{end}") for end in (run.start, run.end)]
        own += [(b, 1000 * metres.value) for b in found if b is not None and metres is not None]
    for gate in sheet.results.gates:
        volts = [(f"gate-{gate.letter}-v{i}", v.nominal) for i, v in enumerate(gate.volts)]
        own += [(bands[key], value) for key, value in volts if key in bands]
    assert len(own) > 20
    right = _verdicts(judge, [(b, f"{value:.4f} {b.unit}") for b, value in own])
    assert set(right) == {"right"}
    beyond = _verdicts(judge, [(b, f"{1.5 * value + 20:.3f} {b.unit}") for b, value in own])
    for (band, _), verdict in zip(own, beyond, strict=True):
        assert verdict == ("wrong" if band.wrong else "doubtful"), band.name
    stated = [b for b, _ in own if b.wrong]
    rails = [f.part.rails for f in sheet.build.parts.values() if hasattr(f.part, "rails")]
    assert bool(stated) == any(r.tolerance is not None for of in rails for r in of.values())


def test_every_field_of_a_page_has_a_band(demo: Checked) -> None:
    for name in BUILDS:
        sheet = demo.sheets[name]
        fields = bench_data(sheet, screens_of(sheet), trouble_of(sheet))["fields"]
        assert isinstance(fields, dict)
        assert len({f["name"] for f in fields.values()}) == len(fields), name
