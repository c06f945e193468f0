"""Each page of a build loads at once anywhere: so many bytes of HTML before compression, drawings and
all. The bounds are ours; the sheet is what a phone opens first.
"""

import pytest

from builder.pages.site.build_page import all_pages
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.render.html.page import Renderer, template_folder, template_texts

pytestmark = pytest.mark.slow  # takes long

MOST = {  # bytes
    "": 60_000,
    "parts": 71_500,  # with what has to be reached on a part, and how it is held
    "buy": 40_000,
    "drawings": 40_000,
    "wiring": 95_000,
    "work": 156_000,
    "setup": 40_000,
    "flight": 50_000,
    "numbers": 212_000,
}
# Six motors and two plugs of the battery have more to be wired and measured.
MOST_OF_SIX = {"wiring": 98_000, "work": 162_000}
FONTS = b'assets/fonts.js"></script>'
NUMBERS_OF_DIPPER = 200_000


def test_the_script_that_is_waited_for_is_small_and_waits_for_nothing_else() -> None:
    script = (template_folder() / "static" / "fonts.js").read_bytes()
    assert len(script) < 1_100
    assert not [word for word in (b"fetch", b"import", b"querySelector") if word in script]


@pytest.mark.parametrize(
    "name", ["curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone"]
)
def test_each_page_of_a_build_keeps_its_bound(demo: Checked, name: str) -> None:
    renderer, site = Renderer(template_texts(None)), site_pages(demo.workspace.site)
    sheet = demo.sheets[name]
    sizes = {}
    for page in all_pages(sheet, sheet.figures):
        made = renderer.page(page, site)
        sizes[page.address.split("/")[1].removesuffix("index.html")] = len(made)
        assert b"<script>" not in made
        # None blocks what is seen, but for the one that waits for the fonts so that it is laid out
        # once and nothing moves.
        assert made.count(FONTS) == 1
        later, data = made.count(b" defer></script>"), made.count(b"application/ld+json")
        assert made.count(b"<script ") == later + data + 1
        if page.kind == "sheet":
            assert b"<svg" in made
    assert set(sizes) == set(MOST)
    most = MOST | (MOST_OF_SIX if name == "turnstone" else {})
    assert {n: size for n, size in sizes.items() if size > most[n]} == {}
    if name == "dipper":
        assert sizes["numbers"] <= NUMBERS_OF_DIPPER
