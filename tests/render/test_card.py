"""The picture that stands for a sheet where its address is shared (Open Graph protocol, ogp.me:
image with its size).
"""

import io
from dataclasses import replace
from pathlib import Path
from shutil import copytree

import pytest
from PIL import Image

from builder.pages.blocks import Illustration, Picture
from builder.pages.site.build_page import build_page
from builder.pages.site.card import Card, card
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked, check_workspace
from builder.render.html.page import Renderer, template_texts
from builder.render.paper.card_image import card_html, card_png
from tests.workspace_edits import ROOT, without_a_camera_known

pytestmark = pytest.mark.slow  # takes long


def test_the_card_is_a_picture_of_its_size_and_the_same_twice(demo: Checked) -> None:
    site = site_pages(demo.workspace.site)
    found = card(demo.sheets["redshank"], site)
    first, second = (card_png(found, template_texts(None)) for _ in range(2))
    assert first == second
    image = Image.open(io.BytesIO(first))
    assert (image.format, image.size) == ("PNG", (1200, 630))
    assert len(first) < 100_000
    bottom = image.convert("L").crop((64, 420, 1136, 600))
    assert min(bottom.tobytes()) < 80  # the bar is on the page, not on a second one


def _pixels(made: Card, pictures: dict[str, bytes], box: tuple[int, int, int, int]) -> bytes:
    image = Image.open(io.BytesIO(card_png(made, template_texts(None), pictures)))
    return image.convert("L").crop(box).tobytes()


def test_the_card_shows_the_picture_of_the_sheet(demo: Checked) -> None:
    """Its own picture where the file is at hand, a view from above where the build has none; the bar
    of weights stays on the card.
    """
    site, sheet = site_pages(demo.workspace.site), demo.sheets["redshank"]
    with_hero = card(sheet, site)
    assert isinstance(with_hero.picture, Picture)
    photo = io.BytesIO()
    Image.new("RGB", (400, 300), (20, 20, 20)).save(photo, "PNG")
    view, below = (826, 116, 1136, 322), (64, 420, 1136, 600)
    shown = _pixels(with_hero, {with_hero.picture.address: photo.getvalue()}, view)
    assert sum(p < 60 for p in shown) > 0.8 * 275 * 206
    source = sheet.build.source.model_copy(update={"hero": None})
    drawn = card(replace(sheet, build=replace(sheet.build, source=source)), site)
    assert isinstance(drawn.picture, Illustration)
    assert 500 < sum(p < 120 for p in _pixels(drawn, {}, view)) < 0.5 * 310 * 206
    assert min(_pixels(drawn, {}, below)) < 80


def test_the_card_says_the_name_and_the_figures_of_the_sheet(demo: Checked) -> None:
    sheet = demo.sheets["dipper"]
    html = card_html(card(sheet, site_pages(demo.workspace.site)), template_texts(None))
    assert "Dipper 3" in html
    assert "Dry weight" in html


def test_a_sheet_names_its_card_by_its_full_address(demo: Checked) -> None:
    site = site_pages(demo.workspace.site)
    page = Renderer(template_texts(None)).page(build_page(demo.sheets["dipper"]), site).decode()
    assert f'<meta property="og:image" content="{site.address}/dipper/card.png">' in page


def test_figures_that_leave_something_out_do_not_run_into_each_other(tmp_path: Path) -> None:
    """Each figure has a field of 200 pixels; the 12 between two fields stay as light as the paper."""
    copytree(ROOT / "builds", tmp_path / "builds")
    without_a_camera_known(tmp_path)
    done = check_workspace(tmp_path, ("dipper",))
    made = card(done.sheets["dipper"], site_pages(done.workspace.site))
    assert "at least" in card_html(made, template_texts(None))
    image = Image.open(io.BytesIO(card_png(made, template_texts(None)))).convert("L")
    for field in range(1, 5):
        left = 64 + 212 * field - 12
        assert min(image.crop((left, 330, left + 12, 425)).tobytes()) > 200, field


def test_the_card_of_a_retired_build_says_so_within_its_picture(demo: Checked) -> None:
    site, sheet = site_pages(demo.workspace.site), demo.sheets["dipper"]
    update = {"status": "retired", "superseded_by": "dipper-light"}
    source = sheet.build.source.model_copy(update=update)
    retired = card(replace(sheet, build=replace(sheet.build, source=source)), site)
    words = "Retired. Its place took dipper-light."
    assert words in card_html(retired, template_texts(None))
    assert "Retired" not in card_html(card(sheet, site), template_texts(None))
    assert min(_pixels(retired, {}, (64, 420, 1136, 600))) < 80  # the bar is not pushed off
