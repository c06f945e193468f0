"""Prints given sheets of HTML in one warm process: by the PDF library alone, or by a browser that
is running already.

    python -m tests.benchmarks.bare_paper weasyprint|chromium FOLDER

FOLDER holds `*.html`, the pictures that they show by address, and `assets/` for the browser. The
last line that it prints is `sheets pages wall CPU`.
"""

import io
import shutil
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pikepdf


def _pages(content: bytes) -> int:
    with pikepdf.open(io.BytesIO(content)) as pdf:
        return len(pdf.pages)


def _time(sheets: list[Path], make: Callable[[Path], bytes]) -> None:
    make(sheets[0])
    wall, cpu = time.perf_counter(), time.process_time()
    made = [make(sheet) for sheet in sheets]
    wall, cpu = time.perf_counter() - wall, time.process_time() - cpu
    print(len(sheets), sum(map(_pages, made)), wall, cpu)


def _weasyprint(sheets: list[Path]) -> None:
    from weasyprint import HTML

    from builder.render.paper.pdf import OnlyOurs, paper_style, style

    css, fonts = style()
    home = sheets[0].parent
    pictures = {
        p.relative_to(home).as_posix(): p.read_bytes() for p in home.glob("*/*") if p.is_file()
    }

    def make(sheet: Path) -> bytes:
        html = HTML(string=sheet.read_text("utf-8"), url_fetcher=OnlyOurs(pictures))
        made: bytes = html.write_pdf(
            stylesheets=[css, paper_style("A4")], font_config=fonts, pdf_variant="pdf/ua-1"
        )
        return made

    _time(sheets, make)


def _chromium(sheets: list[Path]) -> None:
    from playwright.sync_api import sync_playwright

    place = shutil.which("chromium") or shutil.which("chromium-browser")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=place, args=["--no-sandbox", "--disable-dev-shm-usage"]
        )
        page = browser.new_page()

        def make(sheet: Path) -> bytes:
            page.goto(sheet.resolve().as_uri())
            page.add_style_tag(url="assets/bench.css")
            return page.pdf(format="A4", prefer_css_page_size=True)

        _time(sheets, make)
        browser.close()


def main() -> None:
    """The command."""
    sheets = sorted(Path(sys.argv[2]).glob("*.html"))
    {"weasyprint": _weasyprint, "chromium": _chromium}[sys.argv[1]](sheets)


if __name__ == "__main__":
    main()
