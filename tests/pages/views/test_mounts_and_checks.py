"""Pictures of steps that mount and of checks, as a browser draws them: what is lit lies where the build
says, and the probes stand on contacts that the check is about.
"""

from math import cos, radians, sin
from typing import Any

import pytest

from builder.model.build import Contact
from builder.model.kinds import Frame
from builder.pages.sheet_input import SheetInput
from builder.pages.views.bodies import bodies
from builder.pipeline.check import Checked
from builder.render.html.svg import svg
from tests.pages.views.drawn import DEMO, lying
from tests.pages.views.test_step_pictures import _middle, _nearest, _pictures, _read

_NEAR = 3.0  # px


def _mounts(sheet: SheetInput) -> list[tuple[Any, Any]]:
    return [(g, d) for g, d in _pictures(sheet, joints=False) if g.steps[0].do in ("mount", "fit")]


def _from_above(shown: dict[str, Any]) -> bool:
    return bool(shown["base"] == "s-from-above")


@pytest.mark.parametrize("name", DEMO)
def test_what_a_step_mounts_is_lit_where_it_goes(canvas: Any, demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    pictures = _mounts(sheet)
    read = _read(canvas, [d for _, d in pictures])
    by_id = {g.id: r for (g, _), r in zip(pictures, read, strict=True)}
    (frame,) = sheet.build.of_kind(Frame)
    assert frame.part.motors is not None
    places = dict(frame.part.motors)
    spots = by_id["mount motor"]["spots"]
    assert len(spots) == len(places)
    keys = list(places)
    left, right = max(keys, key=lambda k: places[k].y), min(keys, key=lambda k: places[k].y)
    px = (spots[keys.index(right)][0] - spots[keys.index(left)][0]) / (
        places[left].y - places[right].y
    )
    assert px > 0  # left is left
    x0 = spots[0][0] + px * places[keys[0]].y
    y0 = spots[0][1] + px * places[keys[0]].x
    checked = 0
    for (group, _), shown in zip(pictures, read, strict=True):
        if not _from_above(shown):
            continue
        names = {t["text"] for t in shown["texts"] if t["strong"]}
        for key in names & set(sheet.build.parts):
            fitted = sheet.build.parts[key]
            if fitted.use.at is None:
                continue
            wanted = x0 - px * fitted.use.at.y, y0 - px * fitted.use.at.x
            near = [
                m
                for m in map(_middle, shown["lit"])
                if abs(m[0] - wanted[0]) < _NEAR and abs(m[1] - wanted[1]) < _NEAR
            ]
            assert near, (group.id, key)
            checked += 1
    assert checked >= 2


def test_boards_of_a_stack_are_lit_from_the_side_one_above_the_other(
    canvas: Any, demo: Checked
) -> None:
    sheet = demo.sheets["redshank"]
    pictures = [(g, d) for g, d in _mounts(sheet) if g.id in ("mount esc", "mount controller")]
    read = _read(canvas, [d for _, d in pictures])
    height = {g.id: _middle(r["lit"][0])[1] for (g, _), r in zip(pictures, read, strict=True)}
    assert height["mount controller"] < height["mount esc"]  # y points down
    at = {k: sheet.build.parts[k].use.at for k in ("esc", "controller")}
    assert at["controller"] is not None and at["esc"] is not None
    assert at["controller"].z > at["esc"].z


def _checks(sheet: SheetInput) -> list[tuple[Any, Any]]:
    return [(g, d) for g, d in _pictures(sheet, joints=False) if g.steps[0].do == "check"]


def _probed(canvas: Any, sheet: SheetInput) -> list[tuple[Any, dict[str, str], list[str]]]:
    """Steps with the contact that each probe is drawn at, and the words below."""
    drawn = _pictures(sheet, joints=False)
    read = _read(canvas, [d for _, d in drawn])
    bases = {r["base"]: r for r in read if not r["again"]}
    out = []
    for (group, _), shown in zip(drawn, read, strict=True):
        first = group.steps[0]
        if first.do != "check" or not first.board:  # a plug that is tested first shows its contacts
            continue
        named = {"red probe": "red", "black probe": "black"}
        ends = {named[t["text"]]: t for t in shown["texts"] if t["text"] in named}
        at = {colour: _nearest(t, bases[shown["base"]]) for colour, t in ends.items()}
        said = [t["text"] for t in shown["texts"] if not t["strong"] and not t["mono"]]
        out.append((group, at, said))
    return out


def _wrong_probes(canvas: Any, sheet: SheetInput) -> list[str]:
    wrong = []
    nets = sheet.results.netlist
    for group, at, said in _probed(canvas, sheet):
        step = group.steps[0]
        fitted = sheet.build.parts[step.board]
        red, black = (Contact(fitted.key, 0, at[c]) for c in ("red", "black"))
        pads = fitted.part.pads
        if step.id.startswith(("ring", "phases")):
            right = pads[black.pad].role == "ground"
            right &= pads[red.pad].role == ("draws" if step.id.startswith("ring") else "phase")
        elif step.id.startswith("inspect"):
            right = pads[red.pad].channel != pads[black.pad].channel
        else:
            right = red not in nets.of or black not in nets.of or not nets.joined(red, black)
            # a red probe on a ground reads as wires the wrong way round
            right &= pads[red.pad].role != "ground" or pads[black.pad].role == "ground"
        if not right or any(s.power for s in group.steps):
            wrong.append(group.id)
        told = " ".join(said)
        if not all(word in told for word in str(step.measures[0].expect).split()):
            wrong.append(f"{group.id}: {told}")
    return wrong


@pytest.mark.parametrize("name", DEMO)
def test_probes_stand_on_what_a_check_is_about(canvas: Any, demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    assert len(_checks(sheet)) >= 2
    assert _wrong_probes(canvas, sheet) == []


def test_probes_on_boards_that_are_turned_and_upside_down(canvas: Any, demo: Checked) -> None:
    sheet = lying(demo.sheets["redshank"], esc=(90.0, "down"), controller=(180.0, "up"))
    assert _wrong_probes(canvas, sheet) == []


@pytest.mark.parametrize("yaw", [30.0, 90.0])
def test_a_turned_part_is_lit_turned(canvas: Any, demo: Checked, yaw: float) -> None:
    """The box of a lit board grows as that of a rectangle that is turned."""
    sheet = demo.sheets["redshank"]
    turned = lying(sheet, controller=(yaw, "up"))

    def box(of: SheetInput) -> dict[str, Any]:
        found = [(g, d) for g, d in _mounts(of) if g.id == "mount controller"]
        lit: dict[str, Any] = _read(canvas, [d for _, d in found])[0]["lit"][0]
        return lit

    straight, other = box(sheet), box(turned)
    size = sheet.build.parts["controller"].part.size
    assert size is not None
    long = size.along[0] * abs(cos(radians(yaw))) + size.along[1] * abs(sin(radians(yaw)))
    before = straight["right"] - straight["left"]
    assert other["right"] - other["left"] == pytest.approx(before * long / size.along[0], abs=2.0)


def test_the_red_probe_is_red_and_named(canvas: Any, demo: Checked) -> None:
    drawings = [d for _, d in _checks(demo.sheets["pipit"])]
    html = f'<div class="steps">{"".join(str(svg(d)) for d in drawings)}</div>'
    canvas.evaluate("h => { document.querySelector('figure').innerHTML = h; }", html)
    found = canvas.evaluate("""() => [...document.querySelectorAll("svg.drawing")].map(s => {
      const at = e => { const b = e.getBoundingClientRect(); return [(b.left + b.right) / 2, (b.top + b.bottom) / 2]; };
      const say = w => at([...s.querySelectorAll("text")].find(t => t.textContent === `${w} probe`));
      const aside = (probe, w) => { const b = probe.getBoundingClientRect(), i = b.width > b.height ? 1 : 0;
        return Math.abs(at(probe)[i] - say(w)[i]); }; // words stand in line with their probe
      const red = s.querySelector(".probe.red"), black = s.querySelector(".probe:not(.red)");
      return [getComputedStyle(red).stroke, getComputedStyle(black).stroke,
        aside(red, "red") < aside(red, "black"), aside(black, "black") < aside(black, "red")]; })""")
    assert len(found) >= 2
    for red, black, red_is_red, black_is_black in found:
        assert red == "rgb(207, 42, 39)" != black
        assert red_is_red and black_is_black


def test_a_strap_goes_round_all_batteries_that_are_joined(demo: Checked) -> None:
    """From the place of each and half of the width that its label states."""
    build = demo.sheets["turnstone"].build
    strap = next(body for body in bodies(build) if body.key == "strap")
    seats, size = build.packs["pair"].use.each_at, build.packs["pair"].part.size
    assert len(seats) == 2 and size is not None
    sides = [seat.y + way * size.along[1] / 2 for seat in seats for way in (-1, 1)]
    assert strap.across == pytest.approx((min(sides), max(sides)))
