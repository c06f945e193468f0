"""The tip of the iron in the pictures of solder steps, as a browser draws it: as wide against its pad,
and the pad as far from the next one, as the shelf says. Sizes are read from what is drawn.
"""

import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from builder.compute.joints.pad_face import PadFace, pad_face
from builder.compute.order.steps.work_step import StepGroup
from builder.compute.order.work_order import Plan
from builder.model.build import Contact
from builder.pages.drawing import Drawing
from builder.pages.drawings.tip_on_pad import TipOnPad, tip_on_pad
from builder.pages.sheet_input import SheetInput
from builder.pages.views.step_picture import StepPictures
from builder.pipeline.check import Checked
from builder.render.html.svg import svg
from tests.pages.views.drawn import DEMO, overlapping_words

_READ = """() => [...document.querySelectorAll("svg.drawing")].map(s => {
  const f = s.getBoundingClientRect(), tips = [...s.querySelectorAll("g[id] .tip")];
  const own = e => { const b = e.getBoundingClientRect(); return {left: b.left, right: b.right, top: b.top - f.top,
    bottom: b.bottom - f.top, text: e.textContent, width: b.width, height: b.height}; };
  const g = tips.length ? tips[0].closest("g[id]") : null;
  const uses = [...s.querySelectorAll("use")].map(u => [u.getAttribute("href").slice(1), own(u)]);
  return {name: g && g.id, tip: g && own(tips[0]), all: g && own(g), uses,
    pads: g ? [...g.querySelectorAll("rect")].map(own) : [], said: g ? [...g.querySelectorAll("text")].map(own) : [],
    texts: [...s.querySelectorAll("text")].filter(t => !t.closest("g[id]")).map(own), right: f.right, left: f.left, height: f.height};
})"""
_STROKE = 0.6  # px that lines make a box wider
_TIPS = tomllib.loads(Path("builder/assumed.toml").read_text("utf-8"))["soldering"]["tip-width"]
_WIDE = dict(zip(("fine", "medium", "broad"), _TIPS["value"], strict=True))


def _solders(sheet: SheetInput) -> list[tuple[StepGroup, Drawing]]:
    plan = sheet.results.order
    assert isinstance(plan, Plan)
    made = StepPictures(sheet)
    found = [(g, made.of(g)) for g in plan.groups]
    return [(g, d) for g, d in found if d is not None and any(s.joint for s in g.steps)]


def _read(canvas: Any, drawings: list[Drawing], width: int) -> list[dict[str, Any]]:
    canvas.set_viewport_size({"width": width, "height": 900})
    html = f'<div class="steps">{"".join(str(svg(d)) for d in drawings)}</div>'
    canvas.evaluate("h => { document.querySelector('figure').innerHTML = h; }", html)
    found: list[dict[str, Any]] = canvas.evaluate(_READ)
    return found


def _said_of(sheet: SheetInput, group: StepGroup) -> set[tuple[float, float, float]]:
    """Tip, pad and gap in mm that the shelf says of each contact of a step, the tightest alone."""
    found = []
    for step in group.steps:
        if step.joint is None:
            continue
        pad, tip = sheet.build.pad(step.joint.contact), 1e3 * _WIDE[step.tip]
        assert pad.pitch is not None and pad.gap is not None
        wide = 1e3 * (pad.pitch.value - pad.gap.value)
        if pad.pad_size is not None:
            sides = sorted(1e3 * x for x in pad.pad_size.along)
            wide = min(
                sides, key=lambda x: round(abs(x - wide), 6)
            )  # the shorter where both may be
        gap = min(1e3 * pad.gap.value, 1e3 * pad.pitch.value - wide)
        found.append((gap - max(0.0, (tip - wide) / 2), (tip, wide, gap)))
    least = min(room for room, _ in found)
    return {sizes for room, sizes in found if room < least + 1e-9}


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", DEMO)
def test_the_tip_is_to_scale_with_its_pad_and_the_next(
    canvas: Any, demo: Checked, name: str, width: int
) -> None:
    sheet = demo.sheets[name]
    pictures = _solders(sheet)
    read = _read(canvas, [d for _, d in pictures], width)
    shapes = {r["name"]: r for r in read if r["name"]}
    assert len(shapes) >= 3
    for (group, _), shown in zip(pictures, read, strict=True):
        again = [box for href, box in shown["uses"] if href in shapes]
        drawn = shapes[shown["name"]] if shown["name"] else None
        if drawn is None:
            (box,) = again
            href = next(h for h, _ in shown["uses"] if h in shapes)
            drawn = shapes[href]
        else:
            box = drawn["all"]
        pad, beside = drawn["pads"]
        shape = (drawn["tip"]["width"] - _STROKE, pad["width"], beside["left"] - pad["right"])
        ratios = [
            (a / pad["width"], b / sizes[1])
            for sizes in _said_of(sheet, group)
            for a, b in zip(shape, sizes, strict=True)
        ]
        assert any(
            all(abs(a - b) < 0.15 for a, b in ratios[i : i + 3]) for i in range(0, len(ratios), 3)
        ), (group.id, ratios)
        # it lies below all else of its picture, and within its frame
        assert all(t["bottom"] <= box["top"] + 2 for t in shown["texts"]), group.id
        assert box["bottom"] <= shown["height"] + 1 and box["right"] <= shown["right"] + 1
        assert overlapping_words(drawn["said"]) == []
        words = " ".join(t["text"] for t in drawn["said"])
        assert any(f"{s[0]:g} mm, to scale" in words for s in _said_of(sheet, group)), words


@pytest.mark.parametrize("name", DEMO)
def test_no_tip_of_a_step_is_drawn_over_the_next_pad(canvas: Any, demo: Checked, name: str) -> None:
    read = _read(canvas, [d for _, d in _solders(demo.sheets[name])], 1280)
    for shown in (r for r in read if r["name"]):
        assert shown["tip"]["right"] < shown["pads"][1]["left"]


@pytest.mark.parametrize(
    ("face", "words"),
    [
        (PadFace(None, None, None), "pad's size not known"),
        (PadFace(0.002, None, None), "pad 2 mm, gap not known"),
        (PadFace(0.002, 0.003, 0.0005), "pad 2 mm, gap 0.5 mm"),
        (PadFace(0.5, 0.5, 0.3), "pad 500 mm, gap 300 mm"),
        (PadFace(0.00005, 0.5, 0.3), "pad 0.05 mm, gap 300 mm"),
    ],
)
def test_what_nobody_says_is_not_drawn_and_huge_pads_stay_within(
    canvas: Any, face: PadFace, words: str
) -> None:
    shape, bottom = tip_on_pad(TipOnPad("medium", 0.0016, face), "t0", 0.0)
    (shown,) = _read(canvas, [Drawing("", 84.0, bottom, (shape,), "a tip")], 390)
    assert [t["text"] for t in shown["said"]] == ["medium tip, 1.6 mm, to scale", words]
    assert shown["all"]["bottom"] <= shown["height"] + 1
    assert shown["all"]["left"] >= shown["left"] - 1 and shown["all"]["right"] <= shown["right"] + 1
    assert len(shown["pads"]) == (face.width is not None) + (face.gap is not None)


def _faced(sheet: SheetInput, contact: Contact, **given: Any) -> PadFace:
    """The face of a contact whose shelf entry says other things."""
    fitted = sheet.build.parts[contact.part]
    pads = dict(fitted.part.pads)
    pads[contact.pad] = pads[contact.pad].model_copy(update=given)
    part = fitted.part.model_copy(update={"pads": pads})
    parts = dict(sheet.build.parts) | {contact.part: replace(fitted, part=part)}
    return pad_face(replace(sheet.build, parts=parts), contact)


def test_the_side_along_the_edge_is_the_one_that_the_pitch_leaves(demo: Checked) -> None:
    sheet = demo.sheets["redshank"]
    contact = next(j.contact for j in sheet.results.joints if str(j.contact) == "esc.M1A")
    own = pad_face(sheet.build, contact)
    assert (own.width, own.depth, own.gap) == pytest.approx((0.003, 0.004, 0.001))
    size = sheet.build.pad(contact).pad_size
    assert size is not None
    turned = _faced(sheet, contact, pad_size=replace(size, along=(0.004, 0.003)))
    assert turned == own
    wide = _faced(sheet, contact, gap=None, pad_size=replace(size, along=(0.0035, 0.002)))
    assert (wide.width, wide.depth, wide.gap) == pytest.approx((0.002, 0.0035, 0.002))
    unsaid = _faced(sheet, contact, gap=None, pad_size=None)
    assert (unsaid.width, unsaid.depth, unsaid.gap) == (None, None, None)
    assert own.room(0.003) == pytest.approx(0.001) and own.room(0.006) == pytest.approx(-0.0005)
    assert unsaid.room(0.001) is None
