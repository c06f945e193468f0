"""What stands many times on a page is drawn by the first that needs it; paper, whose printer shows
nothing of what is shown again, draws each.
"""

import re

import pytest
from playwright.sync_api import Browser

from builder.pages.paper.bench_sheet import bench_sections
from builder.pages.site.build_page import work_page
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.render.html.block_html import blocks_html
from builder.render.html.inline_html import HtmlContext
from builder.render.html.page import Renderer, template_texts

_DARK = """() => [...document.querySelectorAll("svg.alert")].map(s => {
  const b = s.getBoundingClientRect(), use = s.querySelector("use"), u = use.getBoundingClientRect();
  return [b.width, b.height, u.width, u.height]; })"""


def test_the_alert_symbol_is_drawn_once_on_a_page_and_shown_at_each_caution(
    browser: Browser, demo: Checked
) -> None:
    site = site_pages(demo.workspace.site)
    made = Renderer(template_texts(None)).page(work_page(demo.sheets["pipit"]), site).decode()
    cautions = len(re.findall("class=signal><svg", made))
    assert cautions > 3 and made.count("M12 .5l11.6") == 1
    page = browser.new_page()
    page.set_content(f"<style>svg {{ width: 24px; height: 22px }}</style>{made}")
    sizes = page.evaluate(_DARK)
    assert len(sizes) == cautions
    for width, height, drawn_width, drawn_height in sizes:
        assert drawn_width == pytest.approx(width * 23.2 / 24, abs=1.5)
        assert drawn_height == pytest.approx(height * 21 / 22, abs=1.5)
    page.close()


def test_paper_draws_each(demo: Checked) -> None:
    sections = bench_sections(demo.sheets["pipit"])
    html = blocks_html(sections, HtmlContext("", "pipit", paper=True))
    assert "<use" not in html and html.count("M12 .5l11.6") == html.count('class="alert"') > 3
