"""One demo build, judged once, with chapters as a test writes them."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from builder.model.guide.read_guide import read_guide
from builder.pages.guide.guide_page import guide_pages
from builder.pages.sheet_input import SheetInput
from builder.pages.site.site_pages import SitePages, site_pages
from builder.pipeline.check import judged_alone, read
from builder.render.html.page import Renderer, template_texts

ROOT = Path(__file__).resolve().parents[2]

Written = dict[str, str]  # text of chapters by the names of their files


@pytest.fixture(scope="session")
def pipit() -> SheetInput:
    """The smallest demo build."""
    return judged_alone(read(ROOT)[1].builds["pipit"])


@pytest.fixture(scope="session")
def site() -> SitePages:
    """What its pages share."""
    return site_pages(read(ROOT)[1].site)


@pytest.fixture(scope="session")
def published(pipit: SheetInput, site: SitePages) -> Callable[[Written], dict[str, str]]:
    """Gives the HTML of a guide by address."""
    renderer = Renderer(template_texts(None))

    def html(written: Written) -> dict[str, str]:
        texts = [(f"pipit/guide/{name}", text) for name, text in sorted(written.items())]
        chapters, wrong = read_guide("pipit", texts)
        assert wrong == ()
        pages = guide_pages(replace(pipit, guide=chapters))
        return {p.address: renderer.page(p, site).decode() for p in pages}

    return html
