"""What is taken of contacts of which nobody says size, pitch or copper: by kind of part and by what
they carry, in a wide band, listed, and never where a danger or a probe rests on it.

The values: from memory, and common practice, no source.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any, get_args

import pytest

from builder.compute.circuit import usual_pads
from builder.compute.circuit.usual_pads import pad_area, taken_as_usual
from builder.compute.compute import assemble, compute
from builder.compute.power_up.open_pads import reach_dead, reach_live
from builder.compute.weight.wire_mass import solder_mass
from builder.diagnostics.finding import Signal
from builder.load.usual.usual_pads import Carries, UsualBand, UsualPad, usual_pad_of
from builder.load.usual.usual_pads import usual_pads as entries
from builder.model.build import Build
from builder.model.kinds import KINDS
from builder.pages.site.reference_page import rules_page
from builder.pipeline.check import Checked
from builder.rules.judge import judge
from builder.rules.not_looked_at import resting_on_usual_pads
from builder.rules.rule import Case

_FILE = Path(usual_pads.__file__).parents[2] / "pads.toml"
_ENTRIES = tomllib.loads(_FILE.read_text("utf-8"))["pads"]
_SHAPE = ("pad_size", "copper", "pitch", "gap")


def _without_shapes(build: Build) -> Build:
    """The build of which no contact says its size, copper, pitch or gap."""
    parts = {}
    for key, fitted in build.parts.items():
        bare = dict.fromkeys(_SHAPE)
        pads = {n: pad.model_copy(update=bare) for n, pad in fitted.part.pads.items()}
        parts[key] = replace(fitted, part=fitted.part.model_copy(update={"pads": pads}))
    return replace(build, parts=parts)


@pytest.fixture(scope="module")
def shapeless(demo: Checked) -> Build:
    return _without_shapes(demo.sheets["dipper"].build)


def test_every_contact_of_every_kind_has_an_entry() -> None:
    for kind in KINDS:
        for channels in (None, 1, 4):
            for carries in get_args(Carries):
                assert usual_pad_of(kind, channels, carries).carries == carries


@pytest.mark.parametrize("entry", _ENTRIES, ids=lambda e: e["what"])
def test_bands_are_in_order_and_wide(entry: Mapping[str, Any]) -> None:
    for name in ("length", "width", "pitch"):
        least, usual, most = entry[name]
        assert 0.0003 < least < usual < most < 0.013, name
        assert most >= 1.6 * least, f"{name}: boards differ by more than that"
    assert entry["pitch"][1] > entry["width"][1], "pads beside each other do not overlap"
    assert entry["source"] in ("from memory", "common practice, no source")


def test_what_carries_more_is_larger_and_on_more_copper() -> None:
    """A battery pad takes a thicker wire than a motor pad, that one a thicker than a signal pad."""
    for kind, channels in (("speed-controller", 4), ("speed-controller", 1), ("combined-board", 4)):
        battery, motor, other = (
            usual_pad_of(kind, channels, c) for c in ("battery", "motor", "other")
        )
        areas = [u.length.usual * u.width.usual for u in (battery, motor, other)]
        assert areas == sorted(areas, reverse=True) and areas[0] > areas[2], kind
        assert [battery.ground, motor.copper, other.copper] == ["plane", "power", "signal"]


def test_what_a_part_says_goes_before(demo: Checked) -> None:
    build = demo.sheets["dipper"].build
    said = [
        j.contact for j in demo.sheets["dipper"].results.joints if build.pad(j.contact).pad_size
    ]
    assert len(said) > 10
    for contact in said:
        size = build.pad(contact).pad_size
        area = pad_area(build, contact)
        assert size is not None and (area.length, area.width) == size.along[:2]
        assert area.share == 0.0 and not area.basis


def test_all_that_is_taken_is_listed_with_its_kind(shapeless: Build) -> None:
    soldered = [j.contact for j in assemble(shapeless).joints]
    taken = taken_as_usual(shapeless, soldered)
    listed = {(each.part, pad): each.usual.what for each in taken for pad in each.pads}
    assert set(listed) == {(c.part, c.pad) for c in soldered}
    assert listed["esc", "M1A"] == "motor pad of a speed controller for several motors"
    assert listed["receiver", "GND"] == "pad of a receiver"


def test_a_usual_size_makes_its_figures_wider(demo: Checked, shapeless: Build) -> None:
    """The solder of the same joints on pads of which nobody says the size is known less well."""
    solder = [solder_mass(demo.sheets["dipper"].build), solder_mass(shapeless)]
    shares = [figure.spread / figure.value for figure in solder if figure is not None]
    assert shares[1] > shares[0]


def test_no_probe_is_put_by_a_usual_pitch(shapeless: Build) -> None:
    """Where nobody says the room between pads, a live one is clamped with the power off."""
    nets = assemble(shapeless).netlist
    seen = [reach_live(shapeless, contact) for contact in nets.at]
    assert set(seen) <= {"clamp", "none"} and "clamp" in seen
    assert {reach_dead(shapeless, nets, contact) for contact in nets.at} <= {"open", "none"}


def _at(end: str) -> list[UsualPad]:
    """All entries with each band drawn together at its least or its most."""

    def alone(band: UsualBand) -> UsualBand:
        value = getattr(band, end)
        return UsualBand(value, value, value)

    return [
        replace(u, length=alone(u.length), width=alone(u.width), pitch=alone(u.pitch))
        for u in entries()
    ]


def test_checks_that_hang_on_it_are_counted_apart_and_no_danger_does(
    shapeless: Build, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Judged with every contact at the small and at the large end of its band, or all on one
    copper: a check that then answers otherwise is one of those that are counted apart.
    """
    verdict = judge(Case(shapeless, compute(shapeless)))
    apart = set(resting_on_usual_pads(verdict))
    clean = {a.rule.code: a.answer for a in verdict.answers}
    dangers = {a.rule.code for a in verdict.answers if a.rule.signal == Signal.DANGER}
    changed: set[str] = set()
    largest = _at("most")
    on_planes = [replace(u, copper="plane", ground="plane") for u in largest]
    for tried in (_at("least"), largest, on_planes):

        def other(
            kind: str, channels: int | None, carries: Carries, own: list[UsualPad] = tried
        ) -> UsualPad:
            return next(u for u in own if u.fits(kind, channels, carries))

        monkeypatch.setattr(usual_pads, "usual_pad_of", other)
        said = judge(Case(shapeless, compute(shapeless)))
        changed |= {a.rule.code for a in said.answers if a.answer != clean[a.rule.code]}
    assert not changed & dangers
    assert {code for code in changed if clean[code] == "passed"} <= apart


def test_the_page_of_rules_shows_each_band_with_its_source() -> None:
    section = next(s for s in rules_page().sections if s.anchor == "contacts")
    rows = [row for block in section.blocks for row in getattr(block, "rows", ())]
    assert len(rows) == len(_ENTRIES)
    shown = {row.cells[0].pieces[0].text.lower(): row for row in rows}
    receiver = next(e for e in _ENTRIES if e["what"] == "pad of a receiver")
    least, usual, most = (f"{1000 * m:g} mm" for m in receiver["pitch"])
    assert shown[receiver["what"]].cells[2].pieces[0].text == f"{usual} ({least} to {most})"
    assert shown[receiver["what"]].cells[4].pieces[0].text == receiver["source"]
