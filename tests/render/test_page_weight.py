"""A sheet loads at once anywhere: under 178 kB of HTML before compression, drawings and all.

It was 155 kB before cells carried the heading that a card says on a phone (15 % more, 6 % compressed).
"""

import pytest

from builder.pages.site.build_page import build_page
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.render.html.page import Renderer, template_texts


@pytest.mark.parametrize("name", ["curlew", "dipper", "dipper-light", "pipit", "redshank"])
def test_a_sheet_weighs_less_than_178_kb(demo: Checked, name: str) -> None:
    page = Renderer(template_texts(None)).page(
        build_page(demo.sheets[name]), site_pages(demo.workspace.site)
    )
    assert b"<svg" in page
    assert len(page) < 178_000
    assert b"<script>" not in page
    assert page.count(b"<script ") == page.count(b" defer></script>")  # none blocks what is seen
