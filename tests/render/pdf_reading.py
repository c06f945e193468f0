"""What a printed sheet holds, read back from its PDF by a library that had no part in making it
(PDFium).
"""

import ctypes
from collections.abc import Iterator
from dataclasses import dataclass

import pypdfium2
import pypdfium2.raw as pdfium

MM = 25.4 / 72


@dataclass(frozen=True)
class Box:
    """The bounds of a drawn path, in mm."""

    width: float
    height: float
    left: float
    top: float


@dataclass(frozen=True)
class Sheet:
    """One page: its text with every space a plain one, the boxes of its paths, and for each size of type in pt how many letters
    have it.
    """

    size: tuple[float, float]
    text: str
    boxes: tuple[Box, ...]
    letters: tuple[tuple[str, float], ...]


def _outline(item: pypdfium2.PdfObject) -> float:
    """Width in pt of the line around a path; 0 for one that is only filled."""
    fill, stroked, width = ctypes.c_int(), ctypes.c_int(), ctypes.c_float()
    pdfium.FPDFPath_GetDrawMode(item, fill, stroked)
    pdfium.FPDFPageObj_GetStrokeWidth(item, width)
    return width.value * abs(item.get_matrix().a) if stroked.value else 0.0


def _boxes(page: pypdfium2.PdfPage) -> Iterator[Box]:
    height = page.get_height()
    for item in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH], max_depth=8):
        left, bottom, right, top = item.get_bounds()
        wide = (
            _outline(item) / 2
        )  # PDFium adds the whole width of a line on each side; half of it is ink
        left, bottom, right, top = left + wide, bottom + wide, right - wide, top - wide
        yield Box((right - left) * MM, (top - bottom) * MM, left * MM, (height - top) * MM)


def _letters(text: pypdfium2.PdfTextPage) -> Iterator[tuple[str, float]]:
    for i in range(text.count_chars()):
        matrix = pdfium.FS_MATRIX()
        pdfium.FPDFText_GetMatrix(text, i, matrix)
        letter = chr(pdfium.FPDFText_GetUnicode(text, i))
        if not letter.isspace():
            yield letter, pdfium.FPDFText_GetFontSize(text, i) * abs(matrix.d)


def sheets(content: bytes) -> list[Sheet]:
    """All pages of a PDF."""
    document = pypdfium2.PdfDocument(content)
    out = []
    for page in document:
        text = page.get_textpage()
        size = (page.get_width() * MM, page.get_height() * MM)
        words = text.get_text_bounded().replace("\u00a0", " ")
        out.append(Sheet(size, words, tuple(_boxes(page)), tuple(_letters(text))))
        text.close()
        page.close()
    document.close()
    return out
