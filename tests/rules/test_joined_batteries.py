"""Sound builds with joined batteries from the demo: in series and side by side by two pigtails, by a
Y-lead, one below. Nothing is found of them, and what is measured at a gate is measured between the
contacts that have the volts.
"""

from pathlib import Path

import pytest

from builder.diagnostics.finding import Severity
from tests.rules.altered_demo import ROOT, Tree, case_of, said, verdict_of

pytestmark = pytest.mark.slow  # takes long

_POWER = (ROOT / "builds" / "shelf" / "power.yaml").read_text("utf-8")
FAMILIES = ("wiring", "power", "pack", "fit", "setup")
LINK = {"from": "pigtail.1.MINUS", "to": "pigtail.2.PLUS", "colour": "white", "gauge": "12 AWG"}


def _half() -> str:
    """The six-cell battery of the demo as one of three cells, and a Y-lead."""
    begin = _POWER.index("pack-6s-1300:")
    entry = _POWER[begin : _POWER.index("\n\n", begin)]
    half = entry.replace("pack-6s-1300", "pack-half").replace("6S", "3S").replace("7 way", "4 way")
    lead = "y-lead: {kind: cable, name: Y-lead, mass: 14 g, gauge: 12 AWG, length: 90 mm,"
    return f"{half}\n{lead} price: {{each: 6.00 EUR, seen: 2026-09-01}}}}\n"


def _two_pigtails(tree: Tree) -> None:
    tree["parts"]["pigtail"]["count"] = "2"
    for line in tree["wires"]:
        for pole, number in (("PLUS", 1), ("MINUS", 2)):
            if line["from"] == f"pigtail.{pole}":
                line["from"] = f"pigtail.{number}.{pole}"
    for key in ("weighed", "flights", "accept", "as_built"):
        tree.pop(key, None)
    tree["setup"].pop("alarms", None)


def _pack(tree: Tree, **use: object) -> None:
    at = tree["packs"]["bank"]["at"]
    tree["packs"] = {"pair": {"at": at, **use}}


def _series(tree: Tree) -> None:
    _two_pigtails(tree)
    _pack(tree, use="pack-half", series="2", each_volts=["12.60 V", "12.50 V"])
    tree["wires"].append({**LINK, "length": "45 mm"})


def _side_by_side(tree: Tree) -> None:
    _two_pigtails(tree)
    _pack(tree, use="pack-6s-1300", parallel="2", each_volts=["25.2 V", "25.1 V"])
    for number, pole, colour in ((2, "PLUS", "red"), (1, "MINUS", "black")):
        end = "esc.BAT+" if pole == "PLUS" else "esc.BAT-"
        line = {"from": f"pigtail.{number}.{pole}", "to": end, "colour": colour}
        tree["wires"].append({**line, "gauge": "12 AWG", "length": "95 mm"})


def _y_lead(tree: Tree) -> None:
    _two_pigtails(tree)
    tree["parts"]["pigtail"].pop("count")
    for line in tree["wires"]:
        line["from"] = (
            line["from"].replace("pigtail.1.", "pigtail.").replace("pigtail.2.", "pigtail.")
        )
    tree["parts"]["y-lead"] = {"use": "y-lead"}
    _pack(tree, use="pack-6s-1300", parallel="2", through=["y-lead"])


def _below(tree: Tree) -> None:
    _series(tree)
    tree["packs"]["pair"]["at"] = "-12 mm, 0 mm, -24 mm"


@pytest.mark.parametrize("change", [_series, _side_by_side, _y_lead, _below])
def test_a_sound_build_has_no_fault(tmp_path: Path, change: object) -> None:
    assert callable(change)
    verdict = verdict_of(case_of(tmp_path, "redshank", change, _half()))
    assert [f.message for f in verdict.faults if f.severity == Severity.FAULT] == []
    milder = ("fit/balance-off", "fit/lead-near-disc")  # the demo's places are for other batteries
    assert [line for line in said(verdict, *FAMILIES) if not line.startswith(milder)] == []


def test_gates_of_batteries_in_series_measure_where_the_volts_are(tmp_path: Path) -> None:
    """Between plus and minus of one of two pigtails in series there is nothing to be read once the
    batteries are off: who waits there for 1 V touches a charged capacitor.
    """
    case = case_of(tmp_path, "redshank", _series, _half())
    gates = case.whole.gates
    assert len(gates) >= 3
    assert {gate.plug for gate in gates} == {"pigtail.1.PLUS and pigtail.2.MINUS"}
    shorts = "no beep"  # across one battery, by the link: no volts are looked for there
    read = [set(r.between) for gate in gates for r in gate.readings if r.expect != shorts]
    for number in (1, 2):
        both = {f"pigtail.{number}.PLUS", f"pigtail.{number}.MINUS"}
        assert not [pair for pair in read if both <= pair or f"pigtail.{number} plus" in pair]


def test_each_battery_is_measured_before_the_first_one_is_plugged_in(tmp_path: Path) -> None:
    order = case_of(tmp_path, "redshank", _series, _half()).whole.order
    names = [step.id for step in order.steps]  # type: ignore[union-attr]
    assert names.index("match") < names.index("first pack")


def test_the_link_of_a_series_is_beeped_before_anything_gets_power(tmp_path: Path) -> None:
    """A supply at the outer ends never tries the link: it is read by itself, from one cup to the
    other, and against both ends, where a beep is a short across one battery.
    """
    case = case_of(tmp_path, "redshank", _series, _half())
    for gate in (case.whole.gates[0], case.whole.gates[-1]):
        read = {r.between: r.expect for r in gate.readings}
        assert not [r for r in gate.readings if r.between[0] == "pigtail.1.MINUS" and r.since]
        assert read["pigtail.1.MINUS", "pigtail.2.PLUS"].startswith("beeps")
        for end in ("pigtail.1.PLUS", "pigtail.2.MINUS"):
            assert read["pigtail.1.MINUS", end] == "no beep"


def _words(case: object, step: str) -> str:
    steps = case.whole.order.steps  # type: ignore[attr-defined]
    return str(next(s for s in steps if s.id == step).text)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (_series, "Plug in the 2 batteries of pair, one after the other. One goes through"),
        (_side_by_side, "Plug in one of the 2 batteries of pair alone, through"),
        (_y_lead, "Join the 2 batteries of pair by y-lead, then plug in y-lead through"),
    ],
)
def test_joined_batteries_are_plugged_in_as_they_are_joined(
    tmp_path: Path, change: object, said: str
) -> None:
    """A limiter in the lead of one of two side by side limits nothing that comes by the other."""
    assert callable(change)
    words = _words(case_of(tmp_path, "redshank", change, _half()), "first pack")
    assert said in words
    assert "unplug every battery and wait until plus to minus at " in words


def test_one_battery_is_plugged_in_as_ever(tmp_path: Path) -> None:
    words = _words(case_of(tmp_path, "redshank", lambda tree: None, ""), "first pack")
    assert "Plug in the first battery (old) through" in words
    assert "every battery" not in words
