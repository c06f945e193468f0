"""Pictures of builds that are hard to lay out, as a browser draws them on a phone and on a desk: no words
cover others or leave their frame, contacts lie as the boards do, and the tip is to scale.
"""

from pathlib import Path
from typing import Any

import pytest

from builder.pages.site.build_page import whole_sections
from builder.pages.views.board_view import board_seen
from builder.pipeline.check import Checked
from tests.pages.views.drawn import boxes, lying, outside, overlapping_words, show
from tests.pages.views.made_up import MADE_UP
from tests.pages.views.test_mounts_and_checks import _wrong_probes
from tests.pages.views.test_step_pictures import _check, _drawings_in, _pictures, _read

pytestmark = pytest.mark.slow  # takes long
_LINE = 1.5  # px that line boxes of words beside each other may share


@pytest.mark.parametrize("name", MADE_UP)
def test_words_stay_apart_and_contacts_where_they_are(
    canvas: Any, demo: Checked, tmp_path: Path, name: str
) -> None:
    sheet = MADE_UP[name](tmp_path, demo)
    wiring = f"wiring-{sheet.build.name}"  # its small words are told by test_text_in_browser.py
    found = {d.name: d for s in whole_sections(sheet).values() for d in _drawings_in(s) if d.name}
    assert len(found) >= 14
    wrong: dict[str, Any] = {}
    for width in (390, 1280):
        for drawing in (d for d in found.values() if d.name != wiring):
            page = show(canvas, drawing, width)
            (frame,) = boxes(page, "svg.drawing")
            words = boxes(page, "text:not(.say)")
            problems = [*outside(words, frame), *overlapping_words(words, _LINE)]
            if problems:
                wrong[f"{drawing.name} at {width}"] = problems
        wrong |= _of_steps(canvas, sheet, width)
    assert wrong == {}
    assert _check(canvas, sheet) >= 9
    assert _wrong_probes(canvas, sheet) == []


def _of_steps(canvas: Any, sheet: Any, width: int) -> dict[str, Any]:
    """Words of the pictures of steps that cover others or leave their frame."""
    pictures = _pictures(sheet, joints=False)
    read = _read(canvas, [d for _, d in pictures], width)
    bases = {r["base"]: r for r in read if not r["again"]}
    wrong = {}
    for (group, _), shown in zip(pictures, read, strict=True):
        kept = [t for t in bases[shown["base"]]["texts"] if t["kept"]]
        words = shown["texts"] + (kept if shown["again"] else [])
        frame = {"left": 0, "top": 0, "right": shown["width"], "bottom": shown["height"]}
        problems = [*outside(words, frame), *overlapping_words(words, _LINE)]
        if problems:
            wrong[f"{group.id} at {width}"] = problems
    return wrong


@pytest.mark.parametrize("yaw", [0.0, 90.0, 180.0, 270.0])
@pytest.mark.parametrize("face", ["up", "down"])
def test_the_name_of_each_view_says_what_is_before_the_eye(
    demo: Checked, yaw: float, face: str
) -> None:
    """A side that looks down is seen from below: the top of a board that lies face down, the
    underside of one that lies face up.
    """
    sheet = lying(demo.sheets["pipit"], board=(yaw, face))
    for side in ("top", "under"):
        view = board_seen(sheet.build, "board", "board", side)
        assert view is not None
        looks_down = (side == "top") == (face == "down")
        assert ("from below" in view.said) == ("mirrored" in view.said) == looks_down
        assert ("from above" in view.said) != looks_down
