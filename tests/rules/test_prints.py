"""What is taken from the print beside a contact passes no danger, is measured first, and is listed.

The prints' usual meanings: common practice, no source. What a wrong print could hide is tried by
giving the contacts other roles, not by asking the code which contacts it is unsure of.
"""

import inspect
import sys
from dataclasses import replace
from itertools import combinations
from shutil import copytree
from typing import Any

import pytest
import yaml
from click.testing import CliRunner

from builder import pipeline
from builder.cli.main import cli
from builder.compute.circuit.print_pads import by_print, taken_from_prints
from builder.compute.compute import assemble, compute
from builder.diagnostics.finding import Collector, Signal
from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.read.shelf import read_part
from builder.pipeline.check import Checked
from builder.rules.find_rules import all_rules
from builder.rules.judge import Answer, judge
from builder.rules.rule import Case, Rule
from tests.seeded.seeds import ROOT, _source

pytestmark = pytest.mark.slow  # takes long

_DECIDING = {
    "wiring/supply-to-ground",
    "wiring/polarity-reversed",
    "wiring/plug-joins-unlike",
    "power/load-across-part",
    "setup/comes-home-blind",
}
# Its danger is a motor that was seen to turn the wrong way; what a meter reads is no assumption.
_MEASURED = {"data/reading-out-of-bounds"}
_RULES = tuple(r for r in all_rules() if r.code in _DECIDING)
_HEAVY = {
    "supply": {"role": "supply", "polarity": None},
    "ground": {"role": "ground", "polarity": None},
    "draws": {"role": "draws", "polarity": None},
    "sink": {"role": "sink", "polarity": None},
    "sends": {"role": "sends", "polarity": None},
}


def _with_pads(build: Build, changes: dict[tuple[str, str], dict[str, Any]]) -> Build:
    """The build in which some pads of some parts have other fields."""
    parts = dict(build.parts)
    for key in {part for part, _ in changes}:
        part = parts[key].part
        own = {n: f for (p, n), f in changes.items() if p == key}
        pads = {n: p.model_copy(update=own.get(n, {})) for n, p in part.pads.items()}
        parts[key] = replace(parts[key], part=part.model_copy(update={"pads": pads}))
    return replace(build, parts=parts)


def _answers(build: Build) -> dict[str, Answer]:
    verdict = judge(Case(build, assemble(build)), _RULES)
    return {a.rule.code: a.answer for a in verdict.answers}


def _assumed(build: Build, names: set[tuple[str, str]]) -> Build:
    return _with_pads(build, {name: {"assumed": ("role",)} for name in names})


def test_every_rule_of_a_danger_that_reads_contacts_is_tried_here() -> None:
    """A rule that can say DANGER and reads the roles of contacts belongs to `_DECIDING`."""

    def source(rule: Rule) -> str:
        return inspect.getsource(sys.modules[rule.check.__module__])

    dangers = {
        r.code for r in all_rules() if r.signal == Signal.DANGER or "Signal.DANGER" in source(r)
    }
    reads = {
        r.code
        for r in all_rules()
        if ".pad(" in source(r) or ".pads" in source(r) or "_nets" in source(r)
    }
    assert dangers & reads - _MEASURED == _DECIDING


@pytest.mark.parametrize("name", ["dipper", "redshank"])
def test_what_another_meaning_would_make_a_danger_is_never_passed(name: str, demo: Checked) -> None:
    """Two contacts at a time get other roles; each rule that then finds a danger may not pass the
    build in which these two are known by their print.
    """
    build = demo.sheets[name].build
    clean = _answers(build)
    wired = sorted({(c.part, c.pad) for c in demo.sheets[name].results.netlist.at})
    ends = [p for p in wired if build.parts[p[0]].part.KIND not in ("motor", "cable")]
    tried = 0
    for pair in [*combinations(ends, 2)][:: max(1, len(ends) * (len(ends) - 1) // 2 // 6)]:
        found: set[str] = set()
        for first, second in (("supply", "ground"), ("ground", "supply")):
            turned = _with_pads(build, {pair[0]: _HEAVY[first], pair[1]: _HEAVY[second]})
            said = _answers(turned)
            found |= {c for c, a in said.items() if a == "found" and clean[c] != "found"}
        answers = _answers(_assumed(build, set(pair)))
        passed = {code for code in found if answers[code] == "passed"}
        # nets that a plug of unlike contacts upsets are that rule's own to find
        assert not passed, (pair, passed)
        tried += len(found)
    assert tried > 1


def test_a_board_in_a_list_of_prints() -> None:
    found = Collector()
    tree = {
        "kind": "flight-controller",
        "name": "Own",
        "rails": {"5V": {"volts": "5 V"}, "video": {"volts": "9 V"}},
        "edges": {"left": ["GND", "5V", "TX1-TX2", "RX2", "9V", "3V3", "NC", "POND"]},
    }
    part = read_part("own", tree, Where("shelf/own.yaml", ("own",)), found)
    assert part is not None and not found.findings
    meant = {n: (p.role, p.rail, p.serial) for n, p in part.pads.items()}
    assert meant == {
        "GND": ("ground", None, None),
        "5V": ("supply", "5V", None),
        "TX1": ("sends", None, 1),
        "TX2": ("sends", None, 2),
        "RX2": ("listens", None, 2),
        "9V": ("supply", "video", None),  # the only rail of these volts
        "3V3": ("supply", None, None),  # the board says no such rail
        "NC": ("unconnected", None, None),
    }
    assert all(by_print(pad) for pad in part.pads.values())


@pytest.mark.parametrize(
    ("kind", "print_", "role"),
    [
        ("speed-controller", "M3B", "phase"),
        ("speed-controller", "S4", "drive-in"),
        ("flight-controller", "S4", "drive-out"),
        ("speed-controller", "BAT+", "draws"),
        ("connector", "BAT+", "supply"),
        ("camera", "5V", "draws"),
        ("camera", "VID", "video-out"),
        ("video-transmitter", "VID", "video-in"),
        ("compass", "SDA", "data"),
        ("motor", "B", "phase"),
    ],
)
def test_a_print_means_what_it_usually_does_on_its_kind(kind: str, print_: str, role: str) -> None:
    found = Collector()
    tree = {"kind": kind, "name": "Own", "edges": {"rear": [print_]}}
    part = read_part("own", tree, Where("shelf/own.yaml", ("own",)), found)
    assert part is not None, found.findings
    assert part.pads[print_].role == role


def test_what_is_written_goes_before_its_print_and_is_not_assumed() -> None:
    found = Collector()
    pads = {"5V": {"role": "ground"}, "TX1": {"serial": "3"}}
    tree = {"kind": "flight-controller", "name": "Own", "pads": pads}
    part = read_part("own", tree, Where("shelf/own.yaml", ("own",)), found)
    assert part is not None
    assert part.pads["5V"].role == "ground" and not part.pads["5V"].assumed
    assert part.pads["TX1"].serial == 3 and part.pads["TX1"].assumed == ("role",)


def test_a_print_that_the_table_lacks_asks_for_its_role() -> None:
    found = Collector()
    tree = {"kind": "camera", "name": "Own", "pads": {"POND": {"pitch": "2 mm"}}}
    part = read_part("own", tree, Where("shelf/own.yaml", ("own",)), found)
    (wrong,) = found.findings
    assert part is None and "'role' is missing in 'POND'" in wrong.message


def test_a_mistake_in_what_pads_share_is_said_once() -> None:
    found = Collector()
    tree = {
        "kind": "flight-controller",
        "name": "Own",
        "each_pad": {"pitch": "2 furlong"},
        "edges": {"left": ["GND", "5V", "TX1"]},
    }
    read_part("own", tree, Where("shelf/own.yaml", ("own",)), found)
    places = {f.where.path for f in found.findings if f.where is not None}
    assert places == {("own", "each_pad", "pitch")} and len(set(found.findings)) == 1


def test_gates_measure_each_assumed_contact_before_anything_hangs_on_it(demo: Checked) -> None:
    """Of the control board: ohms of each contact at itself, volts of a supply, and no other contact
    under power.
    """
    build = demo.sheets["dipper"].build
    nets = demo.sheets["dipper"].results.netlist
    wired = {c.pad for c in nets.at if c.part == "controller" and c.pad not in ("HGND", "VIN")}
    wired = {p for p in wired if p[:2] in ("GN", "5V", "9V", "TX", "RX", "VI")}
    assert len(wired) > 8
    pads = {("controller", pad) for pad in wired} | {("camera", "VID")}
    gates = compute(_assumed(build, pads)).gates
    board = next(g for g in gates if "control board" in g.title)
    ohms = {r.between[0].partition(" ")[0] for r in board.readings if "only its print" in r.why}
    assert {f"controller.{pad}" for pad in wired} <= ohms
    grounds = {
        r.between[0] for r in board.readings if "only its print" in r.why and "beeps" in r.expect
    }
    assert grounds == {f"controller.{p}" for p in wired if p.startswith("GND")}
    sure = {r.between[1] for r in board.readings if "only its print" in r.why}
    assert sure and not {s.rpartition(".")[2] for s in sure} & wired
    before = {v.contact for g in compute(build).gates for v in g.volts}
    live = {v.contact for v in board.volts} - before
    assert live <= {f"controller.{p}" for p in wired if p[0] in "59"} and live
    looked = [r for g in gates for r in g.readings if "prints alone" in r.why]
    assert [r.between for r in looked] == [("camera, the maker's drawing", "VID")]


def test_a_workspace_that_takes_boards_from_prints_lists_them(tmp_path: Any) -> None:
    shelf = dict(_source("shelf/boards.yaml"))
    pads = dict(shelf["fc-hex"]["pads"])
    for line in ("GND1-GND4, HGND", "TX1-TX2, TX4", "VID-IN"):
        pads[line] = {k: v for k, v in pads[line].items() if k not in ("role", "serial")}
    shelf["fc-hex"] = {**shelf["fc-hex"], "pads": pads}
    copytree(ROOT / "builds/shelf", tmp_path / "builds/shelf")
    copytree(ROOT / "builds/dipper", tmp_path / "builds/dipper")
    site = {k: v for k, v in _source("site.yaml").items() if k != "compare"}
    (tmp_path / "builds/site.yaml").write_text(yaml.safe_dump(site, allow_unicode=True), "utf-8")
    text = yaml.safe_dump(shelf, sort_keys=False, allow_unicode=True)
    (tmp_path / "builds/shelf/boards.yaml").write_text(text, "utf-8")
    done = CliRunner().invoke(cli, ["check", "dipper", "--workspace", str(tmp_path)])
    assert "contacts are assumed from prints" in done.output, done.output
    for code in ("wiring/supply-to-ground", "wiring/polarity-reversed"):
        assert code in done.output.partition("could not be checked:")[2]
    assert done.exit_code == 0
    sheet = pipeline.check_workspace(tmp_path, ("dipper",)).sheets["dipper"]
    (board,) = taken_from_prints(sheet.build)
    assert board.part == "controller" and board.meant["GND1"] == "ground"
    assert board.meant["TX2"] == "sends, port 2" and len(board.meant) == 9
