"""A stranger's words in every text field of a published site: nothing runs, nothing is fetched,
nothing is read.

`BENCHLEAF_LONG=1 pytest tests/hostile` puts every payload into every field and opens every page
(minutes); without it every payload and every field take part, but not each with each, and pages of
every kind are opened.
"""

import csv
import io
import json
import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pikepdf
import pypdfium2
import pytest
from playwright.sync_api import Browser, Dialog, Page

from builder.diagnostics.finding import Severity
from builder.load.files import load
from builder.model.read.workspace import read_workspace
from builder.options import PublishOptions
from builder.pages.site.site_pages import site_pages
from builder.pipeline.build_jobs import PdfJob
from builder.pipeline.check import read
from builder.pipeline.publish import publish_site
from builder.render.html.page import template_texts
from tests.hostile.corpora import injections, naughty_strings
from tests.hostile.poisoned import Fields, fields, fit, pictures

LONG = bool(os.environ.get("BENCHLEAF_LONG"))
SECRET = "canary-7f3a9c21-never-published"
CHUNK = 40 if LONG else 12  # payloads that stand in one field together
MARK = """window.ran = []; alert = prompt = print = open = (...x) => { window.ran.push(String(x)); };
confirm = () => false;"""  # our own page asks before it clears ticks
POKE = """() => { for (const e of document.querySelectorAll('*')) for (const n of ['focus', 'click', 'mouseover',
  'pointerenter', 'error', 'load', 'toggle', 'animationstart', 'focusin', 'beforeinput'])
    if (!(n === 'click' && (e.closest('a') || e.tagName === 'SUMMARY'))) e.dispatchEvent(new Event(n)); }"""
# What no page of ours holds, whoever wrote into it.
FOREIGN = """() => [...document.querySelectorAll('*')].filter(e =>
  [...e.attributes].some(a => a.name.startsWith('on') || a.name === 'style' || a.name === 'srcdoc')
  || ['IFRAME', 'OBJECT', 'EMBED', 'FORM', 'BASE', 'STYLE', 'TEMPLATE', 'VIDEO', 'AUDIO', 'foreignObject', 'animate',
      'set', 'math'].includes(e.tagName)
  || (e.tagName === 'META' && e.httpEquiv && e.httpEquiv !== 'Content-Security-Policy')
  || (e.tagName.toUpperCase() === 'SCRIPT' && !/^application.*json$/.test(e.type) && e.src.slice(0, 5) !== 'file:')
  || (e.tagName.toUpperCase() === 'A' && e.href && !['file:', 'http:', 'https:', 'mailto:'].includes(new URL(
        e.href.baseVal ?? e.href, location.href).protocol))
).map(e => e.outerHTML.slice(0, 200))"""


@pytest.fixture(scope="module")
def places() -> Fields:
    return fields()


@pytest.fixture(scope="module")
def canary(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A file outside every workspace, whose content may appear nowhere."""
    file = tmp_path_factory.mktemp("outside") / "secret.txt"
    file.write_text(SECRET)
    return file


def _rounds(payloads: tuple[str, ...]) -> Iterator[tuple[int, int]]:
    """(payloads at once, shift): many together in each field, and one alone in each."""
    chunks = -(-len(payloads) // CHUNK)
    for shift in range(chunks if LONG else 1):
        yield CHUNK, shift * CHUNK
    for shift in range(0, len(payloads), 9) if LONG else ():
        yield 1, shift


def _publish(
    workspace: Path, places: Fields, payloads: tuple[str, ...], size: int, shift: int
) -> Path:
    def words(place: int, name: str) -> str:
        return " ".join(payloads[(place * size + shift + i) % len(payloads)] for i in range(size))

    places.write(workspace, words)
    pictures(workspace)
    done = publish_site(PublishOptions(workspace, draft=True, pdf=LONG and size == 1, workers=1))
    mistakes = [f for f in done.findings if f.severity == Severity.MISTAKE]
    assert (mistakes, done.errors, done.left_out, done.kept) == ([], (), (), ())
    if not LONG:
        _print(workspace, "pipit")
    return workspace / "site"


def _print(workspace: Path, name: str) -> None:
    """The bench sheet of one build."""
    _, model = read(workspace)
    job = PdfJob(model.builds[name], site_pages(model.site), template_texts(None), True, "")
    for address, content in job().files.items():
        (workspace / "site" / address).write_bytes(content)


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory, places: Fields, canary: Path) -> list[Path]:
    """The published sites, one a round."""
    payloads = fit(injections(canary))
    assert len(payloads) >= 250
    return [
        _publish(tmp_path_factory.mktemp("poisoned"), places, payloads, size, shift)
        for size, shift in _rounds(payloads)
    ]


def test_the_fields_are_many(places: Fields) -> None:
    assert len(places.places) > 120
    for name in (
        "BuildSource.title",
        "BuildStep.reason",
        "Photo.caption",
        "Price.shop",
        "Site.title",
        "Wire.note",
    ):
        assert name in places.places


def _pages(site: Path, bare: bool) -> list[Path]:
    pages = sorted(p for p in site.rglob("*.html"))
    if LONG:
        return pages
    if not bare:
        return [site / "index.html", *sorted((site / "dipper").rglob("*.html"))]
    kinds = {
        re.sub(r"/(parts|fields)/.*", r"/\1", str(p.parent)): p
        for p in pages
        if "curlew" not in p.parts
    }
    return [*kinds.values(), site / "index.html"]


def _open(page: Page, file: Path, address: str) -> None:
    page.goto(address)
    page.evaluate(POKE)
    page.wait_for_timeout(20)
    assert page.evaluate("window.ran") == [], file
    assert page.evaluate(FOREIGN) == [], file


@pytest.mark.parametrize("bare", [False, True], ids=["under its policy", "without any policy"])
def test_nothing_runs_and_nothing_is_fetched(
    browser: Browser, sites: list[Path], bare: bool
) -> None:
    """In a real Chromium. Without the policy it is the escaping alone that holds."""
    context = browser.new_context(bypass_csp=bare)
    context.add_init_script(MARK)
    said: list[str] = []
    asked: list[str] = []

    def heard(dialog: Dialog) -> None:
        said.append(dialog.message)
        dialog.dismiss()

    context.on("dialog", heard)
    context.on("request", lambda request: asked.append(request.url))
    context.on(
        "console", lambda message: said.append(message.text) if message.type == "error" else None
    )
    page = context.new_page()
    opened = 0
    for site in sites:
        for file in _pages(site, bare):
            _open(page, file, file.as_uri())
            opened += 1
        for pair in ("dipper+pipit", "pipit+curlew"):
            page.goto("about:blank")
            any_two = site / "compare" / "any" / "index.html"
            page.goto(f"{any_two.as_uri()}#{pair}")
            page.wait_for_selector(f'[data-pair="{pair}"]')
            page.evaluate(POKE)
            assert page.evaluate("window.ran") == [] and page.evaluate(FOREIGN) == []
        allowed = site.as_uri() + "/"
        assert [a for a in asked if a.startswith("file:") and not a.startswith(allowed)] == []
        assert [a for a in asked if not a.startswith(("file:", "about:"))] == []
        asked.clear()
    assert said == [] and opened >= 2
    context.close()


def _pdf_text(file: Path) -> str:
    document = pypdfium2.PdfDocument(file)
    try:
        return "".join(p.get_textpage().get_text_range() for p in document)
    finally:
        document.close()


def _pdf_words(file: Path) -> set[str]:
    """The keys and names of all dictionaries of a PDF."""
    words: set[str] = set()
    with pikepdf.open(file) as pdf:
        for thing in pdf.objects:
            if isinstance(thing, pikepdf.Dictionary | pikepdf.Stream):
                words.update(str(k) for k in thing.keys())  # noqa: SIM118 - it is no mapping
                words.update(str(v) for _, v in thing.items() if isinstance(v, pikepdf.Name))
    return words


def test_no_file_outside_is_read_and_no_pdf_runs_or_carries_anything(sites: list[Path]) -> None:
    pdfs = 0
    for site in sites:
        for file in site.rglob("*"):
            if not file.is_file():
                continue
            content = file.read_bytes()
            assert SECRET.encode() not in content, file
            if file.suffix == ".pdf":
                pdfs += 1
                assert SECRET not in _pdf_text(file)
                assert _pdf_words(file).isdisjoint(
                    ("/JavaScript", "/JS", "/Launch", "/EmbeddedFiles", "/OpenAction", "/AA")
                )
    assert pdfs >= 1


def test_feeds_data_and_lists_stay_what_they_are(sites: list[Path]) -> None:
    for site in sites:
        for name in ("feed.xml", "sitemap.xml"):
            root = ElementTree.fromstring((site / name).read_bytes())
            for element in root.iter():
                assert (
                    not str(element.get("href", "https:"))
                    .casefold()
                    .startswith(("javascript", "data", "file"))
                )
        for build in ("dipper", "pipit", "curlew"):
            data: Any = json.loads((site / build / "sheet.json").read_text("utf-8"))
            assert data
            script = (site / build / "sheet.js").read_text("utf-8")
            assert "<" not in script and script.startswith("benchleafSheet(")
            rows = list(
                csv.reader(
                    io.StringIO((site / build / "parts.csv").read_text("utf-8-sig"), newline="")
                )
            )
            assert len({len(r) for r in rows}) == 1
            for cell in (c for row in rows for c in row):
                assert not cell.startswith(
                    ("=", "+", "-", "@", "\t", "\r", "＝", "＋", "－", "＠")
                ), cell


def test_structured_data_is_json_and_ends_where_it_ends(sites: list[Path]) -> None:
    pattern = re.compile(r'<script type="application/ld\+json">(.*?)</script>', re.S)
    found = 0
    for site in sites:
        for file in site.rglob("index.html"):
            for text in pattern.findall(file.read_text("utf-8")):
                json.loads(text)
                found += 1
    assert found >= 3


def test_naughty_strings_in_every_field(tmp_path: Path, places: Fields) -> None:
    """Each string of the list in some field, and in each field some of them; those that text may
    not hold are said.
    """
    strings = tuple(s for s in fit({"": naughty_strings()}))
    refused = [s for s in naughty_strings() if s.strip() and s not in strings]
    assert len(strings) + len(refused) > 460 and len(refused) < 16
    count = places.write(
        tmp_path,
        lambda place, name: (
            "https://club.example" if name == "Site.address" else strings[place % len(strings)]
        ),
    )
    assert count > len(strings)
    pictures(tmp_path)
    done = publish_site(PublishOptions(tmp_path, draft=True, pdf=LONG, workers=1))
    assert not done.errors and len(done.published) == 3
    assert not [f for f in done.findings if f.severity == Severity.MISTAKE]


def test_strings_that_no_text_may_hold_are_said_in_every_field(
    tmp_path: Path, places: Fields
) -> None:
    count = places.write(
        tmp_path, lambda place, name: ("a\u202eb", "a\u2069b", "a\ufeffb")[place % 3]
    )
    found = read_workspace(load(tmp_path)).findings
    assert {f.code for f in found if "more mistakes" not in f.message} == {"data/not-text"}
    assert count > 1000 and len(found) > 300  # a hundred at most of one object
