"""The bench sheet as it comes out of a printer: sizes measured from the PDF, tags, the code
decoded, the same bytes.
"""

import hashlib
import io
import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import pikepdf
import pypdfium2
import pytest
from PIL import Image
from pyzbar.pyzbar import decode
from weasyprint import HTML

from builder.load.limits import DEFAULT_LIMITS
from builder.model.kinds import Hardware
from builder.pages.paper.bench_sheet import BenchSheet, bench_sheet
from builder.pages.site.picture_files import picture_files
from builder.pages.site.site_pages import SitePages, site_pages
from builder.pipeline.beside.pictures_of import pictures_of
from builder.pipeline.check import Checked
from builder.render.html.page import template_texts
from builder.render.paper.pdf import OnlyOurs, bench_sheet_html, bench_sheet_pdf, paper_style, style
from builder.render.pictures.published import published_picture
from tests.render.pdf_reading import Sheet, sheets
from tests.workspace_edits import ROOT


@pytest.fixture(scope="module")
def pages_of_site(demo: Checked) -> SitePages:
    return site_pages(demo.workspace.site)


def _sheet(demo: Checked, site: SitePages, name: str) -> BenchSheet:
    sheet = demo.sheets[name]
    return bench_sheet(sheet, site, sheet.build.digest)


def _pictures(demo: Checked, name: str) -> dict[str, bytes]:
    """The pictures of a build as they are published."""
    found, wrong = pictures_of(
        name, picture_files(demo.sheets[name].build), ROOT / "builds", DEFAULT_LIMITS
    )
    assert not wrong
    return {f"{name}/{p.name}": published_picture(p.name, content) for p, content in found}


@pytest.fixture(scope="module")
def printed(demo: Checked, pages_of_site: SitePages) -> bytes:
    sheet = _sheet(demo, pages_of_site, "dipper")
    return bench_sheet_pdf(
        sheet, pages_of_site, template_texts(None), pictures=_pictures(demo, "dipper")
    )


@pytest.fixture(scope="module")
def read(printed: bytes) -> list[Sheet]:
    return sheets(printed)


def _bitmap(content: bytes, page: int, dots_per_mm: float) -> Image.Image:
    document = pypdfium2.PdfDocument(content)
    image: Image.Image = document[page].render(scale=dots_per_mm * 25.4 / 72).to_pil().convert("L")
    document.close()
    return image


def _page_with(read: list[Sheet], words: str) -> int:
    return next(i for i, s in enumerate(read) if words in s.text)


def test_every_page_says_what_it_belongs_to(demo: Checked, read: list[Sheet]) -> None:
    build = demo.sheets["dipper"].build
    for number, page in enumerate(read, 1):
        assert build.title in page.text, number
        assert "2026-10-18" in page.text, number
        assert f"source {build.digest[:12]}" in page.text, number
        assert f"page {number} of {len(read)}" in page.text


def test_the_bar_and_the_ruler_are_true(printed: bytes, read: list[Sheet]) -> None:
    """The longest black run of the page at 20 dots a millimetre, and the distance of the first and
    the last tick.
    """
    dots = 20.0
    image = _bitmap(printed, _page_with(read, "check with a rule"), dots)
    width, height = image.size
    longest = 0
    for y in range(0, height, 4):
        row = image.crop((0, y, width, y + 1)).tobytes()
        runs = re.findall(rb"[\x00-\x40]+", row)
        longest = max([longest, *(len(r) for r in runs if len(r) < 130 * dots)])
    assert longest / dots == pytest.approx(100.0, abs=0.15)
    ticks = [
        b
        for b in read[_page_with(read, "check with a rule")].boxes
        if 5.9 < b.height < 6.3 and b.width < 0.5 and b.height > b.width
    ]
    assert len(ticks) == 17
    assert max(b.left for b in ticks) - min(b.left for b in ticks) == pytest.approx(160.0, abs=0.05)


def test_screws_are_drawn_at_true_size(demo: Checked, read: list[Sheet]) -> None:
    """Each shank on paper is as long and as thick as the screw on the shelf."""
    boxes = read[_page_with(read, "Screws at true size")].boxes
    for place in demo.sheets["dipper"].build.screws:
        assert isinstance(place.part, Hardware)
        assert place.part.length is not None
        length, thread = 1000 * place.part.length.value, float((place.part.thread or "").strip("M"))
        assert any(
            b.width == pytest.approx(length, abs=0.05)
            and b.height == pytest.approx(thread, abs=0.05)
            for b in boxes
        ), place.screw.place


def test_boxes_are_five_millimetres(read: list[Sheet]) -> None:
    """A square of 5 mm beside every step, so that a tick with a thick pen stays in it."""
    pages = [
        p
        for p in read
        if re.search(r"^\d+ (Tin|Solder) ", p.text, re.MULTILINE) or "Gate B:" in p.text
    ]
    assert pages
    for page in pages:
        square = [
            b for b in page.boxes if b.width == pytest.approx(b.height, abs=0.02) and b.width > 4.5
        ]
        boxes = [
            b for b in square if b.left < 30 and b.width < 6
        ]  # those of parts stand further in
        assert boxes
        assert all(b.width == pytest.approx(5.0, abs=0.05) for b in boxes)


def test_gates_are_heavy_bars_across_the_page(read: list[Sheet]) -> None:
    for gate in ("Gate A: ", "Gate B: ", "Gate C: "):
        page = read[_page_with(read, gate)]
        assert [b for b in page.boxes if b.width > 175 and b.height > 2.2], gate


def test_the_code_leads_to_the_page(printed: bytes) -> None:
    """Decoded from the rendered page by zbar."""
    found = decode(_bitmap(printed, 0, 8.0))
    assert [d.data.decode() for d in found] == ["https://quillbeck.example/builds/dipper/"]
    assert [d.type for d in found] == ["QRCODE"]


def test_letter_paper_and_no_derivations(
    printed_sheet: Callable[[str, str], bytes], read: list[Sheet]
) -> None:
    """A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 in (ANSI/ASME Y14.1)."""
    assert {tuple(round(x, 1) for x in p.size) for p in read} == {(210.0, 297.0)}
    letter = sheets(printed_sheet("pipit", "Letter"))
    assert {tuple(round(x, 1) for x in p.size) for p in letter} == {(215.9, 279.4)}
    assert not any("were made" in p.text for p in (*read, *letter))
    bar = [
        b
        for p in letter
        for b in p.boxes
        if b.width == pytest.approx(100.0, abs=0.02) and b.height < 4
    ]
    assert len(bar) == 1


def _boxes_of(box: Any) -> Iterator[Any]:
    yield box
    for child in getattr(box, "children", ()):
        yield from _boxes_of(child)


@pytest.mark.parametrize(
    ("name", "paper"), [("dipper", "A4"), ("redshank", "Letter"), ("pipit", "Letter")]
)
def test_no_row_is_split_and_nothing_hangs_out(
    demo: Checked, pages_of_site: SitePages, name: str, paper: str
) -> None:
    """Boxes as laid out: every row and step is on one page, every box inside the page's margins."""
    site = replace(pages_of_site, paper=paper)
    made = _sheet(demo, site, name)
    css, fonts = style()
    html = HTML(string=bench_sheet_html(made, site, template_texts(None)), url_fetcher=OnlyOurs())
    document = html.render(stylesheets=[css, paper_style(made.paper)], font_config=fonts)
    seen: dict[int, int] = {}
    heads = {
        id(row) for head in html.etree_element.iter("thead") for row in head
    }  # repeated on every page
    for number, page in enumerate(document.pages):
        root = page._page_box
        right = root.content_box_x() + root.width
        for box in _boxes_of(root):
            element = getattr(box, "element", None)
            if element is None or box.__class__.__name__ == "MarginBox":
                continue
            words = (number, element.tag, element.get("class"))
            if (element.tag == "tr" and id(element) not in heads) or element.get("class") in (
                "step",
                "gate",
                "notice",
            ):
                assert seen.setdefault(id(element), number) == number, words
            if hasattr(box, "text") or element.tag in ("table", "svg", "td", "th"):
                assert box.position_x + box.width <= right + 0.5, (words, getattr(box, "text", ""))
    assert len(seen) > 100


def test_it_is_tagged_with_title_language_and_outline(printed: bytes) -> None:
    """PDF/UA identification (ISO 14289-1), tags and alternative texts, read by pikepdf."""
    with pikepdf.open(io.BytesIO(printed)) as pdf:
        with pdf.open_metadata() as meta:
            assert meta["pdfuaid:part"] == "1"
            assert "Dipper 3" in meta["dc:title"]
        assert pdf.Root.MarkInfo.Marked
        assert pdf.Root.ViewerPreferences.DisplayDocTitle
        assert str(pdf.Root.Lang) == "en"
        tags, figures = _tags(pdf.Root.StructTreeRoot)
        assert {
            "/H1",
            "/H2",
            "/H3",
            "/Table",
            "/TR",
            "/TH",
            "/TD",
            "/L",
            "/LI",
            "/P",
            "/Figure",
        } <= set(tags)
        assert figures
        assert all(figures)
        with pdf.open_outline() as outline:
            top = [str(item.title) for item in outline.root]
            below = [str(item.title) for item in outline.root[0].children]
        assert top == ["Dipper 3"]
        assert {"Order of work", "Setup", "As built", "Field card"} <= set(below)


def test_headers_of_tables_say_which_cells_they_are_for(printed: bytes) -> None:
    """ISO 32000-1, 14.8.5.7 (table attributes, from memory): Scope of a TH, Headers of a TD."""
    scopes: dict[str, int] = {}
    with pikepdf.open(io.BytesIO(printed)) as pdf:
        for node in pdf.objects:
            if not isinstance(node, pikepdf.Dictionary):
                continue
            if node.get("/S") == "/TH":
                scope = str(node.A.get("/Scope", ""))
                scopes[scope] = scopes.get(scope, 0) + 1
            if node.get("/S") == "/TD":
                assert len(node.A.get("/Headers", [])) >= 1
    assert set(scopes) == {"/Column", "/Row"}
    assert min(scopes.values()) > 20


def _tags(root: Any) -> tuple[list[str], list[str]]:
    """All structure types, and the alternative text of each figure."""
    tags: list[str] = []
    figures: list[str] = []
    row = [root]
    while row:
        node = row.pop()
        if "/S" in node:
            tags.append(str(node.S))
            if str(node.S) == "/Figure":
                figures.append(str(node.get("/Alt", "")))
        kids = node.get("/K", [])
        row += [
            k
            for k in (kids if isinstance(kids, pikepdf.Array) else [kids])
            if isinstance(k, pikepdf.Dictionary)
        ]
    return tags, figures


def test_pictures_beside_steps_are_printed_with_their_words(demo: Checked, printed: bytes) -> None:
    with pikepdf.open(io.BytesIO(printed)) as pdf:
        _, figures = _tags(pdf.Root.StructTreeRoot)
    for step in demo.sheets["dipper"].build.source.steps:
        assert step.alt in figures


def test_a_variant_prints_the_pictures_that_it_inherits(
    demo: Checked, pages_of_site: SitePages
) -> None:
    """They lie in the base's folder and are published in the variant's own."""
    made, pictures = _sheet(demo, pages_of_site, "dipper-light"), _pictures(demo, "dipper-light")
    text = bench_sheet_html(made, pages_of_site, template_texts(None), pictures)
    assert set(re.findall(r'<img src="?([^ ">]+)', text)) == {
        "leaf:dipper-light/wedge.svg",
        "leaf:dipper-light/antenna-tube.svg",
        "leaf:dipper-light/drip-loop.svg",
    }


def test_a_picture_that_is_not_at_hand_is_left_out(demo: Checked, pages_of_site: SitePages) -> None:
    text = bench_sheet_html(
        _sheet(demo, pages_of_site, "dipper"), pages_of_site, template_texts(None)
    )
    assert "<img" not in text


_MAKE = """
import hashlib, sys
from pathlib import Path
from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import check_workspace
from builder.render.html.page import template_texts
from builder.render.paper.pdf import bench_sheet_pdf
done = check_workspace(Path(sys.argv[1]))
sheet, site = done.sheets["pipit"], site_pages(done.workspace.site)
print(hashlib.sha256(bench_sheet_pdf(bench_sheet(sheet, site, sheet.build.digest), site, template_texts(None))).hexdigest())
"""


def test_two_processes_give_the_same_bytes(printed_sheet: Callable[[str, str], bytes]) -> None:
    """Other hash seed, other time zone, other language than here: the same PDF."""
    world = {"PYTHONHASHSEED": "2", "TZ": "Asia/Tokyo", "LANG": "C"}
    made = subprocess.run(
        [sys.executable, "-c", _MAKE, str(ROOT)],
        env={**os.environ, **world},
        cwd=ROOT,
        capture_output=True,
        check=True,
        text=True,
    ).stdout
    assert made.strip() == hashlib.sha256(printed_sheet("pipit", "A4")).hexdigest()


@pytest.mark.parametrize(
    "address",
    ["file:///etc/hostname", "https://shop.example/x.png", "leaf:../leaf-regular.ttf", "data:,x"],
)
def test_it_fetches_nothing_but_its_fonts(address: str) -> None:
    with pytest.raises(ValueError, match="fetches nothing but its own fonts"):
        OnlyOurs().fetch(address)


def test_no_font_of_the_system_is_in_it(printed: bytes) -> None:
    with pikepdf.open(io.BytesIO(printed)) as pdf:
        names = {
            str(o.BaseFont)
            for o in pdf.objects
            if isinstance(o, pikepdf.Dictionary) and "/BaseFont" in o
        }
        embedded = [
            o
            for o in pdf.objects
            if isinstance(o, pikepdf.Dictionary) and o.get("/Type") == "/FontDescriptor"
        ]
    assert names
    assert all(re.fullmatch(r"/[A-Z]{6}\+.*Leaf.*|/.*(Plex|Leaf).*", n) for n in names), names
    assert all("/FontFile2" in o or "/FontFile3" in o for o in embedded)
