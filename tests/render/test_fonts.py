"""The cut fonts: as the packages have them, in the style sheet, and enough for what pages say."""

import io
from pathlib import Path

import pytest
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont

from builder.render.assets import CUT_RANGES, asset_files, font_files
from builder.render.html.page import template_folder
from builder.render.paper.paper_fonts import paper_fonts
from builder.rules.data._printed_letters import printed_letters

pytestmark = pytest.mark.slow  # takes long

NAMES = ("leaf-bold", "leaf-greek", "leaf-italic", "leaf-mono", "leaf-regular")


def _drawn(font: TTFont, code: int) -> tuple[object, ...]:
    glyphs, name = font.getGlyphSet(), font.getBestCmap()[code]
    pen = DecomposingRecordingPen(glyphs)
    glyphs[name].draw(pen)
    return glyphs[name].width, tuple(pen.value)


def _cut() -> set[int]:
    ends = [[int(end, 16) for end in piece.split("-")] for piece in CUT_RANGES.split(", ")]
    return {code for end in ends for code in range(end[0], end[-1] + 1)}


@pytest.mark.parametrize("name", NAMES)
def test_a_cut_font_has_the_letters_of_its_package_unchanged_and_not_the_reserved_name(
    name: str,
) -> None:
    whole = TTFont(io.BytesIO({**font_files(), **paper_fonts()}[f"{name}.ttf"]))
    cut = TTFont(template_folder() / "static" / f"{name}.woff2")
    codes = sorted(set(whole.getBestCmap()) & _cut())
    assert sorted(cut.getBestCmap()) == codes
    assert [code for code in codes if _drawn(cut, code) != _drawn(whole, code)] == []
    # SIL Open Font License 1.1, condition 3: a modified version does not use a Reserved Font Name.
    assert not any("Plex" in str(n) for n in cut["name"].names if n.nameID in (1, 3, 4, 6, 16, 18))


def test_a_space_after_a_greek_letter_is_no_empty_box_on_paper() -> None:
    """Pango sets a space in the font of the letter before it."""
    assert {0x20, 0xA0} <= set(TTFont(io.BytesIO(paper_fonts()["leaf-greek.ttf"])).getBestCmap())


def test_the_style_sheet_says_the_same_ranges_and_holds_the_fonts_itself() -> None:
    files = asset_files(None)
    style = files["assets/sheet.css"].decode()
    said = [line for line in style.splitlines() if "data:font/woff2" in line]
    assert len(said) == len(NAMES)
    assert not any(name.endswith(".woff2") for name in files)
    stated = {
        piece.strip().removeprefix("U+")
        for line in said
        for piece in line.split("unicode-range:")[1].split(",")
    }
    ranges = {piece.rstrip("; }") for piece in stated}
    assert ranges - {"3C0"} == set(
        CUT_RANGES.split(", ")
    )  # π is Latin text's too: the condensed family has it


def test_a_workspaces_own_style_sheet_need_not_name_them(tmp_path: Path) -> None:
    (tmp_path / "sheet.css").write_bytes(b"p { color: #123 } /* \xff */")
    files = asset_files(tmp_path)
    assert files["assets/sheet.css"] == b"p { color: #123 } /* \xff */"
    assert "assets/leaf-regular.woff2" in files


def test_the_rule_about_letters_reads_the_fonts_that_print() -> None:
    """What every style has, by the fonts as they are handed to the printer, and Greek."""
    fonts = {name: TTFont(io.BytesIO(content)) for name, content in _printed().items()}
    letters = {name: set(font.getBestCmap()) for name, font in fonts.items()}
    styles = [letters[f"leaf-{style}.ttf"] for style in ("regular", "italic", "bold")]
    greek = letters["leaf-greek.ttf"] & set(range(0x370, 0x400))
    assert printed_letters() == set.intersection(*styles) | greek


def _printed() -> dict[str, bytes]:
    return {n: c for n, c in {**font_files(), **paper_fonts()}.items() if n.endswith(".ttf")}
