"""An aircraft of one's own invention, as somebody new would write it: how much is judged of how few
lines. The bounds are those that were asked for: 150 lines of 100 columns, 60 checks.
"""

from pathlib import Path

from builder import pipeline

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
