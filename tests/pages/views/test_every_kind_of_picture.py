"""Every named drawing of a build's pages, as a browser draws it on a phone and on a desk: no words cover
others or leave their frame.
"""

from typing import Any

import pytest

from builder.pages.drawing import Drawing
from builder.pages.site.build_page import whole_sections
from builder.pipeline.check import Checked
from tests.pages.views.drawn import DEMO, boxes, outside, overlapping_words, show
from tests.pages.views.test_step_pictures import _drawings_in

pytestmark = pytest.mark.slow  # takes long
_LINE = 1.5  # px that line boxes of words beside each other may share: their letters are lower
_KINDS = 14


def _named(name: str, demo: Checked) -> dict[str, Drawing]:
    """All drawings with a name, each once. Those of steps are told by test_step_pictures.py, that of
    all wires, whose small words are as near as their ink allows, by test_text_in_browser.py.
    """
    whole = whole_sections(demo.sheets[name])
    return {
        d.name: d
        for s in whole.values()
        for d in _drawings_in(s)
        if d.name and d.name != f"wiring-{name}"
    }


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", DEMO)
def test_words_of_every_picture_stay_apart(
    canvas: Any, demo: Checked, name: str, width: int
) -> None:
    found = _named(name, demo)
    assert len(found) >= _KINDS
    wrong = {}
    for drawing in found.values():
        page = show(canvas, drawing, width)
        (frame,) = boxes(page, "svg.drawing")
        words = boxes(page, "text:not(.say)")
        problems = [*outside(words, frame), *overlapping_words(words, _LINE)]
        if problems:
            wrong[drawing.name] = problems
    assert wrong == {}


@pytest.mark.parametrize("name", DEMO)
def test_every_picture_says_what_it_shows(demo: Checked, name: str) -> None:
    for drawing in _named(name, demo).values():
        assert len(drawing.alt.split()) >= 4, drawing.name
