"""An aircraft of one's own invention, as somebody new would write it: how much is judged of how few
lines. The bounds are those that were asked for: 150 lines of 100 columns, 60 checks.
"""

from pathlib import Path

from builder import pipeline
from builder.compute.circuit.print_pads import taken_from_prints
from builder.rules.not_looked_at import resting_on_prints, resting_on_usual_pads

_HERE = Path(__file__).with_name("newcomer")


def test_an_aircraft_in_150_lines_has_60_checks_judged() -> None:
    files = sorted(_HERE.rglob("*.yaml"))
    lines = [line for file in files for line in file.read_text("utf-8").splitlines()]
    assert len(files) == 2 and len(lines) <= 150
    assert max(map(len, lines)) <= 100
    checked = pipeline.check_workspace(_HERE)
    assert not checked.stops, [f.message for f in checked.stops]
    verdict = checked.sheets["plover"].verdict
    assert verdict.judged >= 60
    # no contact is taken from its print: each role stands there, written
    parts = checked.workspace.builds["plover"].parts
    assert len(parts["esc"].part.pads) == 22 and len(parts["controller"].part.pads) == 15


_SHORTER = {
    "  pads: {A: {role: phase}, B: {role: phase}, C: {role: phase}}\n": "",
    "  pads: {5V: {role: draws}, GND: {role: ground}, TX: {role: sends, level: 3.3 V},\n"
    "         RX: {role: listens, tolerates: 3.6 V}}\n": "  edges: {rear: [5V, GND, TX, RX]}\n",
    "  pads: {PLUS: {role: supply, battery: yes, polarity: plus},\n"
    "         MINUS: {role: ground, battery: yes, polarity: minus}}\n": "  edges: {front: [PLUS, MINUS]}\n",
}
_BY_PRINT = ("BAT+:", "BAT-:", "M1A-M4C:", "S1-S4:", "CUR:", "GND1-", "5V1-", "TX1:", "RX", "BZ-:", "VIN:")  # fmt: skip


def _replaced(text: str, pieces: dict[str, str]) -> str:
    for old, new in pieces.items():
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def _by_prints() -> tuple[str, str]:
    """Shelf and build without a line for any contact that its print says."""
    shelf = _replaced((_HERE / "builds/shelf/plover.yaml").read_text("utf-8"), _SHORTER)
    kept = (line for line in shelf.splitlines(True) if not line.lstrip().startswith(_BY_PRINT))
    return "".join(kept), (_HERE / "builds/plover/build.yaml").read_text("utf-8")


def _written(workspace: Path, shelf: str, build: str) -> Path:
    for path, content in (("shelf/plover.yaml", shelf), ("plover/build.yaml", build)):
        (workspace / "builds" / path).parent.mkdir(parents=True)
        (workspace / "builds" / path).write_text(content, "utf-8")
    return workspace


def test_boards_as_lists_of_prints_are_shorter_and_pass_no_danger(tmp_path: Path) -> None:
    """The same aircraft without a line for any contact that its print says: fewer lines, still 60
    checks, of which those that may rest on prints (17 of 65) are counted apart.
    """
    shelf, build = _by_prints()
    whole = (_HERE / "builds/shelf/plover.yaml").read_text("utf-8").splitlines()
    assert len(shelf.splitlines()) <= len(whole) - 14
    _written(tmp_path, shelf, build)
    checked = pipeline.check_workspace(tmp_path)
    assert not checked.stops, [f.message for f in checked.stops]
    sheet = checked.sheets["plover"]
    taken = taken_from_prints(sheet.build)
    assert sum(len(each.meant) for each in taken) > 30
    resting = set(resting_on_prints(sheet.build, sheet.verdict))
    assert sheet.verdict.judged >= 60 and 5 < len(resting) < 20
    answers = {a.rule.code: a.answer for a in sheet.verdict.answers}
    for code in ("wiring/supply-to-ground", "wiring/polarity-reversed", "wiring/plug-joins-unlike"):
        assert answers[code] == "not judged", code


# What a newcomer writes into the lines that prints save: facts of papers and of one's own bench.
_OF_SHELF = {
    "  motor_pattern: 12 x 12 mm M2\n": """  motor_pattern: 12 x 12 mm M2
  motors: {1: '-60 mm, -60 mm, 4 mm', 2: '60 mm, -60 mm, 4 mm', 3: '-60 mm, 60 mm, 4 mm',
           4: '60 mm, 60 mm, 4 mm'}
""",
    "  shaft: 1.5 mm\n": "  size: 23 x 23 mm\n  height: 13 mm\n  shaft: 1.5 mm\n",
    "  thread: M2\n": """  thread: M2
  bench: [{propeller: prop-plover, volts: 15 V, rows: [
    {throttle: 30 %, current: 0.8 A, thrust: 55 g, rpm: 12500 rpm},
    {throttle: 60 %, current: 3.6 A, thrust: 165 g, rpm: 21500 rpm},
    {throttle: 100 %, current: 11.5 A, thrust: 350 g, rpm: 31500 rpm}]}]
""",
    """prop-plover:
  kind: propeller
  name: Plover 4 x 2.5 (invented)
  mass: 2.1 g
  diameter: 4"
  bore: 1.5 mm
  mount: two-screw
  hands: {clockwise: 2, counter: 2}
""": """prop-plover: {kind: propeller, name: Plover 4 x 2.5 (invented), mass: 2.1 g, diameter: 4",
              bore: 1.5 mm, mount: two-screw, hands: {clockwise: 2, counter: 2},
              max_rpm: 45000 rpm}
""",
    "  antenna: chip\n": "  antenna: chip\n  size: 18 x 12 x 4 mm\n  speaks: plain frames\n",
    "                 lies: straight}": "                 lies: straight, contacts: 8, pitch: 1 mm}",
    "  capacity: 850mah\n": "  capacity: 850mah\n  resistance: 9 mΩ\n",
}
_TOOLS = """iron-plover: {kind: tool, name: Iron (invented), power: 60 W, hottest: 450 degC,
              tips: {fine: cone 0.8 mm, medium: chisel 2.4 mm, broad: chisel 4.6 mm}}
meter-plover: {kind: tool, name: Hand meter (invented)}
supply-plover: {kind: tool, name: 'Bench supply with a current limit (invented)', current: 5 A}
"""
_OF_BUILD = {
    "packs: {small: {use: pack-plover}}\n": """  iron: iron-plover
  meter: meter-plover
  supply: supply-plover
packs: {small: {use: pack-plover, at: '0 mm, 0 mm, 45 mm'}}
""",
    "  fail_safe:": "  orientation: {yaw: 0 deg, face: up}\n  fail_safe:",
    "setup:\n": "setup:\n  serial: [{port: 1, serves: receiver, speaks: plain frames}]\n",
}


def test_sixty_checks_rest_on_no_print_and_on_no_usual_size(tmp_path: Path) -> None:
    """Every contact is known by its print alone, and within 150 lines 60 checks are judged beside
    those that may rest on a print or on a size that is usual.
    """
    shelf, build = _by_prints()
    shelf, build = _replaced(shelf, _OF_SHELF) + _TOOLS, _replaced(build, _OF_BUILD)
    lines = [*shelf.splitlines(), *build.splitlines()]
    assert len(lines) <= 150 and max(map(len, lines)) <= 100
    checked = pipeline.check_workspace(_written(tmp_path, shelf, build))
    assert not checked.stops, [f.message for f in checked.stops]
    sheet = checked.sheets["plover"]
    prints = resting_on_prints(sheet.build, sheet.verdict)
    usual = resting_on_usual_pads(sheet.verdict)
    assert len(usual) == 3 and len(prints) > 10
    assert sheet.verdict.judged - len({*prints, *usual}) >= 60
