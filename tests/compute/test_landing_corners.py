"""Volts at landing are read under load: the load counts once, and no rule hangs on the table of
corners. Ohm's law, by hand.
"""

from dataclasses import replace

import pytest

from builder.compute.figures.figure import Figure
from builder.pipeline.check import Checked
from builder.rules.judge import Verdict, judge
from builder.rules.rule import Case


def _number(figure: object) -> float:
    assert isinstance(figure, Figure), figure
    return figure.value


def test_the_load_is_taken_once(demo: Checked) -> None:
    """A battery of four cells that lands at 3.5 V a cell under load has 14.0 V then, and more
    without the load: by the resistance of the battery times the current that it is flown with.
    """
    for sheet in demo.sheets.values():
        packs = {p.key: p for p in sheet.results.power.packs}
        corners = {(c.pack, c.name): c for c in sheet.results.path.corners}
        for key, pack in packs.items():
            flown = corners[key, "at landing, as the builder flies"]
            ohms = _number(sheet.results.flight.packs[key].energy.resistance)
            assert _number(flown.loaded) == pytest.approx(pack.landing)
            rested = pack.landing + _number(flown.current) * ohms
            assert _number(flown.resting) == pytest.approx(rested)
            pushed = corners[key, "at landing, full throttle"]
            assert _number(pushed.resting) == pytest.approx(rested)
            assert _number(pushed.loaded) < pack.landing


def _said(verdict: Verdict) -> list[tuple[str, str]]:
    return [(f.code, f.message) for f in verdict.findings]


def test_no_verdict_hangs_on_the_corners(demo: Checked) -> None:
    for sheet in demo.sheets.values():
        bare = replace(sheet.results, path=replace(sheet.results.path, corners=()))
        other = judge(Case(sheet.build, bare))
        assert _said(other) == _said(judge(Case(sheet.build, sheet.results)))
        assert [a.answer for a in other.answers] == [a.answer for a in sheet.verdict.answers]
