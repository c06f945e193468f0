"""The bench sheet as PDF by WeasyPrint: tagged, from our own fonts, and fetching nothing else."""

import atexit
import gc
import io
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager
from functools import cache

import segno
from markupsafe import Markup

from builder.pages.paper.bench_sheet import BenchSheet
from builder.pages.site.site_pages import SitePages
from builder.render.assets import asset_files
from builder.render.html.block_html import blocks_html
from builder.render.html.inline_html import HtmlContext
from builder.render.html.page import environment, language_of_writer
from builder.render.html.picture_html import PAPER_SCHEME
from builder.render.html.title_block import title_block
from builder.render.paper.header_scope import say_scope
from builder.render.paper.paper_fonts import paper_fonts
from builder.render.paper.printer import (
    CSS,
    HTML,
    FontConfiguration,
    URLFetcher,
    URLFetcherResponse,
)


@contextmanager
def uncollected() -> Iterator[None]:
    """Holds the search for circular garbage off: while a page is laid out nothing is let go, and
    looking through it took a fifth of the time.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


# mm from the margin of the field card (12 mm) to the middle of the sheet; mm of a page for the
# drawing of all wires, below its heading and above its caption
_HEIGHTS = {"A4": (136.5, 238.0), "Letter": (127.7, 220.0)}
_KINDS = {"svg": "image/svg+xml", "png": "image/png", "webp": "image/webp"}


class TooMuchPaper(ValueError):
    """A bench sheet that would be too long to print, in kB of HTML."""

    def __init__(self, kilobytes: int) -> None:
        self.kilobytes = kilobytes
        super().__init__(kilobytes)


class OnlyOurs(URLFetcher):  # type: ignore[misc]  # weasyprint has no types
    """Gives our fonts and the build's pictures by name and refuses all else: no file of this
    machine, no other host.
    """

    def __init__(self, pictures: Mapping[str, bytes] | None = None) -> None:
        super().__init__()
        self.pictures = pictures or {}

    def fetch(self, url: str, headers: object = None) -> URLFetcherResponse:
        """The font or the picture of that name; ValueError for anything else."""
        fonts = paper_fonts()
        name = url.removeprefix(PAPER_SCHEME)
        if url.startswith(PAPER_SCHEME) and name in self.pictures:
            kind = _KINDS.get(name.rsplit(".", 1)[-1].casefold(), "image/jpeg")
            return URLFetcherResponse(url, self.pictures[name], {"Content-Type": kind})
        if not url.startswith(PAPER_SCHEME) or name not in fonts:
            raise ValueError(
                f"A bench sheet fetches nothing but its own fonts; asked for {url[:80]!r}."
            )
        return URLFetcherResponse(url, fonts[name], {"Content-Type": "font/ttf"})


@cache
def style() -> tuple[CSS, FontConfiguration]:
    """The style sheet, parsed once a process: fonts stay loaded."""
    text = asset_files()["assets/bench.css"].decode().replace('url("', f'url("{PAPER_SCHEME}')
    fonts = FontConfiguration()
    atexit.register(
        style.cache_clear
    )  # its fonts are freed while the library that frees them still stands
    return CSS(string=text, font_config=fonts, url_fetcher=OnlyOurs()), fonts


@cache
def paper_style(name: str) -> CSS:
    """The size of the sheets, ISO 216 or Letter, and where the field card folds."""
    fold, drawn = _HEIGHTS.get(name, _HEIGHTS["A4"])
    folds = f".card > .pair:first-of-type > div {{ height: {fold}mm; }}"
    wires = f".wide svg.drawing {{ max-height: {drawn}mm; }}"
    return CSS(string=f"@page {{ size: {name}; }} {folds} {wires}")


def qr_svg(address: str) -> Markup:
    """A QR code (ISO/IEC 18004) of an address as SVG, 1 unit a module."""
    out = io.BytesIO()
    segno.make(address, error="m", micro=False).save(
        out,
        kind="svg",
        xmldecl=False,
        svgns=True,
        border=2,
        omitsize=True,
        title=f"QR code of {address}",
    )
    return Markup(out.getvalue().decode())


def bench_sheet_html(
    sheet: BenchSheet, site: SitePages, texts: Mapping[str, str], pictures: Collection[str] = ()
) -> str:
    """The page that is laid out for paper, with those of its pictures that are at hand."""
    language = language_of_writer(site)
    where = HtmlContext(
        "", sheet.build, paper=True, pictures=frozenset(pictures), language=language
    )
    template = environment(texts).get_template("bench_sheet.html")
    body = blocks_html(sheet.page.sections, where)
    code = qr_svg(sheet.address) if sheet.address else Markup("")
    block = title_block(sheet.page, site, sheet.paper)
    return template.render(
        sheet=sheet, page=sheet.page, site=site, title_block=block, body=body, code=code
    )


def bench_sheet_pdf(
    sheet: BenchSheet,
    site: SitePages,
    texts: Mapping[str, str],
    most: int = 4_000,
    pictures: Mapping[str, bytes] | None = None,
) -> bytes:
    """The PDF's bytes, the same for the same sheet and pictures (by address, as published).

    TooMuchPaper for over `most` kB of HTML: the printer is slow.
    """
    text = bench_sheet_html(sheet, site, texts, pictures or ())
    if len(text) > most * 1024:
        raise TooMuchPaper(len(text) // 1024)
    css, fonts = style()
    html = HTML(string=text, url_fetcher=OnlyOurs(pictures))
    with uncollected():
        made: bytes = html.write_pdf(
            stylesheets=[css, paper_style(sheet.paper)],
            font_config=fonts,
            pdf_variant="pdf/ua-1",
            finisher=say_scope,
        )
    return made
