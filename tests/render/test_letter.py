"""Letter is wider and shorter than A4: the bench sheet keeps its margins on it, and no page holds a
heading alone.
"""

import re
from collections.abc import Callable

import pypdfium2
import pytest

from tests.render.pdf_reading import MM, Sheet, sheets

LETTER = (215.9, 279.4)  # mm: 8.5 by 11 inches, ANSI/ASME Y14.1 size A (from memory)
# Margins of bench.css, mm: the frame lies on them; those of the field card are the narrowest.
# A quarter of an inch at the sides is what many printers leave white on Letter: common practice, no source.
LEFT, RIGHT, FOOT = 6.5, 6.5, 9.0
ROOM = 0.15


@pytest.fixture(scope="module")
def printed(printed_sheet: Callable[[str, str], bytes]) -> bytes:
    """The demo build with most parts."""
    return printed_sheet("redshank", "Letter")


@pytest.fixture(scope="module")
def read(printed: bytes) -> list[Sheet]:
    return sheets(printed)


def test_the_paper_is_letter(read: list[Sheet]) -> None:
    for page in read:
        assert page.size == pytest.approx(LETTER, abs=0.1)


def test_nothing_drawn_leaves_the_margins(read: list[Sheet]) -> None:
    for number, page in enumerate(read, 1):
        for box in page.boxes:
            assert box.left >= LEFT - ROOM, number
            assert box.left + box.width <= LETTER[0] - RIGHT + ROOM, number
            assert box.top + box.height <= LETTER[1] - FOOT + ROOM, number


def test_no_letter_leaves_the_margins(printed: bytes) -> None:
    document = pypdfium2.PdfDocument(printed)
    for number, page in enumerate(document, 1):
        text = page.get_textpage()
        for i in range(text.count_chars()):
            if text.get_text_range(i, 1).isspace():
                continue
            left, _, right, _ = text.get_charbox(i)
            around = text.get_text_range(max(0, i - 20), 24)
            assert left * MM >= LEFT - ROOM and right * MM <= LETTER[0] - RIGHT + ROOM, (
                number,
                around,
            )
        text.close()
        page.close()
    document.close()


def test_no_page_holds_a_heading_alone(read: list[Sheet]) -> None:
    """What stands on every page is left out of the count; a full page has over a thousand letters."""
    for number, page in enumerate(read, 1):
        own = re.sub(
            r"Redshank 5.*?source \w+|page \d+ of \d+|Local rules and licensed practice come"
            r" first\.",
            "",
            page.text,
        )
        assert len(re.sub(r"\s", "", own)) > 100, (number, own)


def test_the_long_list_of_parts_begins_right_below_its_heading(read: list[Sheet]) -> None:
    page = next(p for p in read if "Parts to get ready" in p.text)
    assert re.search(r"Parts to get ready\s+Frame\s+\S", page.text)
