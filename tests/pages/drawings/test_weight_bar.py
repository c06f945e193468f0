"""The bar of weights is read on a phone without moving it: type and rows for eyes and fingers."""

from itertools import pairwise

import pytest

from builder.pages.drawing import Drawing, Words
from builder.pages.drawings.text_size import words_width
from builder.pages.plots.weight_bar import weight_bar
from builder.pipeline.check import Checked

PHONE = 358.0  # CSS px of a column at a width of 390
TYPE = 12.0  # CSS px that are read; common practice, no source
TARGET = 24.0  # CSS px, WCAG 2.2, 2.5.8 Target Size (Minimum)


def _bar(demo: Checked, name: str) -> Drawing:
    drawn = weight_bar(name, demo.sheets[name].results.mass)
    assert drawn is not None
    return drawn


@pytest.mark.parametrize(
    "name", ["curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone"]
)
def test_words_are_large_enough_and_inside(demo: Checked, name: str) -> None:
    drawn = _bar(demo, name)
    pixels = PHONE / drawn.width
    words = [i for i in drawn.items if isinstance(i, Words)]
    assert len(words) >= 4
    assert min(w.size for w in words) * pixels >= TYPE
    rows = sorted(w.y for w in words)
    steps = [below - above for above, below in pairwise(rows)]
    assert min(steps) * pixels >= TARGET
    for word in words:
        room = words_width(word.text, word.size)
        left = word.x - room if word.anchor == "end" else word.x
        assert left >= 0 and left + room <= drawn.width, word.text
