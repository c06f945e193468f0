"""The tip of the iron at scale on the bench sheet, read off the pages as they are printed: its outline,
its pad and the one beside it, against the sizes that the shelf says.
"""

import re
import tomllib
from pathlib import Path

import pypdfium2
import pytest
from pypdfium2 import raw

from builder.compute.order.work_order import Plan
from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.render.html.page import template_texts
from builder.render.paper.pdf import bench_sheet_pdf

ROOT = Path(__file__).resolve().parents[2]
_TIPS = tomllib.loads((ROOT / "builder/assumed.toml").read_text("utf-8"))["soldering"]["tip-width"]
_WIDE = dict(zip(("fine", "medium", "broad"), _TIPS["value"], strict=True))
_SAID = re.compile(r"(\w+) tip ([\d.]+) mm, pad ([\d.]+) mm, gap ([\d.]+) mm\s+to scale at (\S+),")
_NEAR = 120.0  # points left of the words within which the shapes stand
_STROKES = 1.8  # points


def _boxes(page: pypdfium2.PdfPage) -> list[tuple[float, float, float, float]]:
    """The outlines that are drawn on a page, in points: left, bottom, right, top."""
    kinds = [raw.FPDF_PAGEOBJ_PATH]
    return [o.get_bounds() for o in page.get_objects(filter=kinds, max_depth=8)]


def _at(page: pypdfium2.PdfPage, words: str) -> tuple[float, float]:
    """Where words begin, in points."""
    text = page.get_textpage()
    found = text.search(words).get_next()
    assert found is not None, words
    left, _, _, top = text.get_charbox(found[0])
    return left, top


@pytest.mark.parametrize("name", ["dipper", "pipit"])
def test_tip_pad_and_gap_are_at_one_scale(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    plan, site = sheet.results.order, site_pages(demo.workspace.site)
    assert isinstance(plan, Plan)
    tips = {str(s.joint.contact): s.tip for s in plan.steps if s.joint is not None}
    content = bench_sheet_pdf(
        bench_sheet(sheet, site, sheet.build.digest), site, template_texts(None)
    )
    document = pypdfium2.PdfDocument(content)
    boards = set()
    for page in document:
        said = _SAID.findall(page.get_textpage().get_text_bounded().replace("\r\n", " "))
        for tip, wide, width, gap, contact in said:
            boards.add(contact.split(".")[0])
            assert (tip, float(wide)) == (tips[contact], 1e3 * _WIDE[tip])
            pad = next(p for c, p in sheet.build.by_name.items() if str(c) == contact)
            shelf = sheet.build.pad(pad)
            assert shelf.pitch is not None and shelf.gap is not None
            pitch = 1e3 * shelf.pitch.value
            assert float(width) + float(gap) == pytest.approx(pitch, abs=0.011)
            _is_to_scale(page, f"to scale at {contact}", (float(wide), float(width), float(gap)))
    document.close()
    assert len(boards) >= 3, boards


def _is_to_scale(page: pypdfium2.PdfPage, words: str, sizes: tuple[float, ...]) -> None:
    """Of the shapes left of words: two pads as far from each other as is said give the scale; each is as
    wide as is said, and so is an outline that ends on the first. Strokes make a box a little wider.
    """
    tip, width, gap = sizes
    left, top = _at(page, words)
    near = [b for b in _boxes(page) if left - _NEAR < b[0] and b[2] < left and abs(b[3] - top) < 30]
    found = 0
    for pad, beside in ((a, b) for a in near for b in near if _alike(a, b) and a[0] < b[0]):
        scale = (beside[0] - pad[0]) / (width + gap)
        outlines = [b for b in near if _is_as_wide(b, tip * scale) and pad[1] < b[1] < pad[3]]
        on_it = [b for b in outlines if abs(b[0] + b[2] - pad[0] - pad[2]) < 0.5]
        found += _is_as_wide(pad, width * scale) and bool(on_it)
    assert found == 1, (words, near)


def _is_as_wide(box: tuple[float, ...], wide: float) -> bool:
    return 0 <= box[2] - box[0] - wide <= _STROKES


def _alike(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    """Whether two boxes are of one size and at one height."""
    return all(
        abs(x - y) < 0.1 for x, y in ((a[1], b[1]), (a[3], b[3]), (a[2] - a[0], b[2] - b[0]))
    )
