"""The overview of the wiring: every wire is in a bundle, and a phone shows all of it."""

from collections import Counter
from typing import Any

import pytest

from builder.pages.drawings.bundles import bundle_drawing, bundles
from builder.pipeline.check import Checked
from tests.pages.views.conftest import canvas as canvas
from tests.pages.views.drawn import DEMO, boxes, outside, overlapping_words, show


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("name", DEMO)
def test_a_phone_shows_all_bundles(canvas: Any, demo: Checked, name: str, width: int) -> None:
    sheet = demo.sheets[name]
    drawn = bundle_drawing(sheet.build, sheet.results.netlist)
    page = show(canvas, drawn, width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    words = boxes(page, "text")
    assert outside(words, boxes(page, "svg.drawing")[0]) == []
    assert overlapping_words(words) == []
    assert min(w["bottom"] - w["top"] for w in words) > 10
    nets = sheet.results.netlist
    own: Counter[tuple[str, ...]] = Counter()
    for wire in sheet.build.wires:
        pair = tuple(sorted((wire.start.board, wire.end.board)))
        own[pair] += 1
    found = bundles(sheet.build, nets)
    assert all(found[a, b] >= count for (a, b), count in own.items() if a != b)
    said = Counter(w["text"].rsplit(": ")[-1] for w in words)
    wanted = Counter(str(n) for n in found.values())
    assert all(said[n] >= count for n, count in wanted.items())
