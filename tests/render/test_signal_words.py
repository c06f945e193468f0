"""DANGER, WARNING, CAUTION and NOTICE told apart without colour: printed in grey, without
backgrounds, and on paper.

Signal words, and the safety alert symbol for those that warn of injury only, are those of ANSI
Z535.6 (from memory). That a level must not hang on colour alone: WCAG 2.2, success criterion 1.4.1.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import groupby, pairwise
from pathlib import Path

import pypdfium2
import pytest
from PIL import Image
from playwright.sync_api import Browser

from builder.diagnostics.finding import Signal
from builder.pages.blocks import Notice, Span
from builder.render.assets import asset_files
from builder.render.html.block_html import block
from builder.render.html.inline_html import HtmlContext
from builder.render.paper.pdf import OnlyOurs, paper_style, style
from builder.render.paper.printer import CSS, HTML

LEVELS = ("DANGER", "WARNING", "CAUTION", "NOTICE")  # worst first
_SCALE = 4  # pixels a point
_DARK = 110  # of 255: grey ink counts as ink


@dataclass(frozen=True)
class Seen:
    """What is measured on a picture of one notice, in pixels."""

    frame: int
    gaps: bool
    widest: int
    ink: int


def _notice(level: str, *, paper: bool) -> str:
    said = Notice(
        Signal(level), "The same title.", (Span("The same words below it, on one line."),)
    )
    return block(said, HtmlContext("", "b", paper=paper))


def _runs(line: list[bool]) -> list[tuple[bool, int]]:
    return [(dark, sum(1 for _ in same)) for dark, same in groupby(line)]


def _start(row: list[bool]) -> int:
    return row.index(True) if True in row else len(row)


def measure(pdf: bytes) -> Seen:
    """Measures the frame at its left side, gaps in it, the widest piece of ink within, and all ink."""
    picture = pypdfium2.PdfDocument(pdf)[0].render(scale=_SCALE).to_pil().convert("L")
    dark = picture.point(lambda v: 255 if v < _DARK else 0)
    box = dark.getbbox()
    assert box is not None, "nothing was printed"
    # Below the notice stands nothing else: its frame is the outermost ink.
    cut: Image.Image = dark.crop(box)
    wide, high = cut.size
    rows = [[cut.getpixel((x, y)) > 0 for x in range(wide)] for y in range(high)]  # type: ignore[operator]
    middle = rows[high // 4 : 3 * high // 4]
    # A side may begin within a pixel: what begins in the first three belongs to it.
    sides = [
        next((n for d, n in _runs(row[i:]) if d), 0) if (i := _start(row)) < 3 else 0
        for row in middle
    ]
    frame = max(sides)
    inner = [row[frame + 2 : wide - frame - 2] for row in rows[frame + 2 : high - frame - 2]]
    widest = max(n for row in inner for d, n in _runs(row) if d)
    return Seen(frame, not all(sides), widest, sum(map(sum, rows)))


def _page(body: str) -> str:
    head = '<title>t</title><link rel=stylesheet href="assets/sheet.css">'
    return (
        f"<!doctype html><html lang=en><head>{head}</head><body><main>{body}</main></body></html>"
    )


@pytest.fixture(scope="module")
def printed_by_browser(
    browser: Browser, tmp_path_factory: pytest.TempPathFactory
) -> Callable[[str, str], bytes]:
    folder = tmp_path_factory.mktemp("signals")
    for name, content in asset_files(None).items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)

    def make(level: str, scheme: str) -> bytes:
        file = Path(folder / f"{level}.html")
        file.write_text(_page(_notice(level, paper=False)), "utf-8")
        page = browser.new_page(color_scheme=scheme)  # type: ignore[arg-type]
        page.goto(file.as_uri())
        made = page.pdf(format="A4", print_background=False)
        page.close()
        return made

    return make


def _by_printer(level: str) -> bytes:
    css, fonts = style()
    text = f'<html lang="en"><body>{_notice(level, paper=True)}</body></html>'
    bare = (
        "@page { border: 0; @top-left { content: none } @top-right { content: none }"
        " @bottom-left { content: none } }"
    )
    html = HTML(string=text, url_fetcher=OnlyOurs())
    made: bytes = html.write_pdf(
        stylesheets=[css, paper_style("A4"), CSS(string=bare)], font_config=fonts
    )
    return made


def _told_apart(seen: dict[str, Seen], em: float) -> None:
    """Each level has a heavier frame than the next, only CAUTION's is broken, and all but NOTICE
    have the symbol.
    """
    for worse, better in pairwise(LEVELS):
        assert seen[worse].frame > seen[better].frame, (worse, better, seen)
        assert seen[worse].ink > seen[better].ink, (worse, better, seen)
    assert [level for level in LEVELS if seen[level].gaps] == ["CAUTION"]
    assert [level for level in LEVELS if seen[level].widest > 0.8 * em] == [
        "DANGER",
        "WARNING",
        "CAUTION",
    ]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_printed_by_a_browser_without_backgrounds(
    printed_by_browser: Callable[[str, str], bytes], scheme: str
) -> None:
    seen = {level: measure(printed_by_browser(level, scheme)) for level in LEVELS}
    _told_apart(seen, em=0.88 * 10 * _SCALE)  # the word is set at 0.88 of 10 pt


def test_on_the_bench_sheet() -> None:
    _told_apart({level: measure(_by_printer(level)) for level in LEVELS}, em=10 * _SCALE)


def test_words_of_the_levels_are_dark_without_backgrounds(
    printed_by_browser: Callable[[str, str], bytes],
) -> None:
    """White letters on a ground that is not printed would be gone."""
    for level in LEVELS:
        pdf = pypdfium2.PdfDocument(printed_by_browser(level, "dark"))
        said = pdf[0].get_textpage().get_text_range()
        assert level in said.replace(" ", "")  # letters that stand apart are read with a space
    inks = {level: measure(printed_by_browser(level, "light")).ink for level in LEVELS}
    assert len(set(inks.values())) == len(LEVELS)


@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("paper", [True, False])
def test_the_alert_symbol_is_for_injury_only(level: str, *, paper: bool) -> None:
    assert ("<svg" in _notice(level, paper=paper)) is (level != "NOTICE")
