"""Chapters on paper: where a build asks for them, behind the work, with pictures, captions and the
addresses of links; elsewhere none.
"""

from dataclasses import replace

import pypdfium2
import pytest

from builder.model.guide.read_guide import read_guide
from builder.pages.blocks import Section
from builder.pages.paper.bench_page import bench_page
from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.sheet_input import SheetInput
from builder.pages.site.site_pages import SitePages
from builder.render.html.page import Renderer, template_texts
from builder.render.paper.pdf import bench_sheet_html, bench_sheet_pdf

pytestmark = pytest.mark.slow  # takes long

PICTURE = b"<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 4 3'><path d='M0 0h4v3z'/></svg>"
FIRST = """# Why so small

It weighs {figure:mass/dry}. Read [the shop](https://shop.example/frame) and [the fit](step:dry-fit).

## What to buy

![A wedge, seen from the left](wedge.svg "The wedge")

| Part | Grams |
|---|---:|
| wedge | 2 |

### And where

Anywhere.
"""
SECOND = "# Last words\n\n    a line to copy\n"
PAPER_ONLY = "follow the steps and cautions"


def _asked(pipit: SheetInput, *, asked: bool) -> SheetInput:
    texts = [("pipit/guide/1-why.md", FIRST), ("pipit/guide/2-last.md", SECOND)]
    chapters, wrong = read_guide("pipit", texts)
    assert wrong == ()
    source = pipit.build.source.model_copy(update={"guide_on_paper": asked})
    return replace(pipit, guide=chapters, build=replace(pipit.build, source=source))


def test_a_build_that_does_not_ask_prints_no_chapter(pipit: SheetInput, site: SitePages) -> None:
    alone = bench_sheet(pipit, site, "d")
    assert bench_sheet(_asked(pipit, asked=False), site, "d").page.sections == alone.page.sections


def test_chapters_come_after_the_work_and_before_the_card(
    pipit: SheetInput, site: SitePages
) -> None:
    sections = bench_sheet(_asked(pipit, asked=True), site, "d").page.sections
    anchors = [section.anchor for section in sections]
    at = anchors.index("bench-guide-why")
    assert anchors[at - 1 : at + 3] == [
        "bench-after",
        "bench-guide-why",
        "bench-guide-last",
        "bench-field-card",
    ]
    assert sections[at].break_before and not sections[at + 1].break_before


def _headings(section: Section) -> list[tuple[str, int]]:
    inner = [s for s in section.blocks if isinstance(s, Section)]
    below = [found for s in inner for found in _headings(s)]
    return [(section.heading, section.level), *below]


def test_headings_stand_below_the_title_of_their_chapter(
    pipit: SheetInput, site: SitePages
) -> None:
    sections = bench_sheet(_asked(pipit, asked=True), site, "d").page.sections
    chapter = next(s for s in sections if s.anchor == "bench-guide-why")
    expected = [("Guide: Why so small", 2), ("What to buy", 3), ("And where", 4)]
    assert _headings(chapter) == expected


def test_paper_shows_captions_pictures_and_addresses_and_leads_nowhere(
    pipit: SheetInput, site: SitePages
) -> None:
    sheet = bench_sheet(_asked(pipit, asked=True), site, "d")
    html = bench_sheet_html(sheet, site, template_texts(None), ["pipit/guide/wedge.svg"])
    guide = html[html.index("bench-guide-why") :]
    assert "leaf:pipit/guide/wedge.svg" in guide and "The wedge</figcaption>" in guide
    assert "the shop (https://shop.example/frame)" in guide
    assert "the fit." in guide and "<a" not in guide
    assert PAPER_ONLY in guide


def test_paper_in_ounces_has_the_chapters_figures_in_ounces(
    pipit: SheetInput, site: SitePages
) -> None:
    asked = _asked(pipit, asked=True)
    html = bench_sheet_html(
        bench_sheet(asked, replace(site, units="oz in degF"), "d"), site, template_texts(None)
    )
    said = html[html.index("It weighs") :].partition("Read")[0]
    assert "oz" in said and "\u00a0g" not in said


def test_the_pdf_is_longer_by_its_chapters_and_tagged(pipit: SheetInput, site: SitePages) -> None:
    texts, pictures = template_texts(None), {"pipit/guide/wedge.svg": PICTURE}
    made = [
        bench_sheet_pdf(
            bench_sheet(_asked(pipit, asked=asked), site, "d"), site, texts, pictures=pictures
        )
        for asked in (False, True)
    ]
    before, after = (pypdfium2.PdfDocument(content) for content in made)
    assert 1 <= len(after) - len(before) <= 2
    said = "\n".join(page.get_textpage().get_text_range() for page in after)
    assert "Guide: Why so small" in said and "Guide: Last words" in said
    marks = [mark.get_title() for mark in after.get_toc()]
    assert "Guide: Why so small" in marks and "Guide: Last words" in marks


def test_the_page_for_any_browser_holds_them_with_its_links(
    pipit: SheetInput, site: SitePages
) -> None:
    page = bench_page(_asked(pipit, asked=True))
    html = Renderer(template_texts(None)).page(page, site).decode()
    guide = html[html.index("bench-guide-why") :]
    assert "https://shop.example/frame" in guide and "step-" in guide
