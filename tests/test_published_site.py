"""The whole path on the demo workspace: addresses, links, anchors, the PDF, and what happens to a
broken build.
"""

import io
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urldefrag

import pikepdf
import pytest

from builder.options import PublishOptions
from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.site.site_pages import site_pages
from builder.pipeline.check import Checked
from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published
from builder.render.html.page import template_texts
from builder.render.paper.pdf import bench_sheet_pdf
from tests.workspace_edits import pipit_alone


class _Page(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.links: list[str] = []
        self.ids: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        for name, value in attrs:
            if name in ("href", "src") and value is not None:
                self.links.append(value)
            if name == "id" and value is not None:
                self.ids.append(value)


@pytest.fixture(scope="module")
def site(published_demo: tuple[Path, Published]) -> tuple[Path, Published]:
    return published_demo


def test_every_build_is_published_at_its_addresses(site: tuple[Path, Published]) -> None:
    workspace, done = site
    assert sorted(done.published) == [
        "curlew",
        "dipper",
        "dipper-light",
        "pipit",
        "redshank",
        "turnstone",
    ]
    assert done.kept == done.left_out == done.errors == ()
    for address in (
        "index.html",
        "compare/index.html",
        "feed.xml",
        "sitemap.xml",
        "dipper/index.html",
        "dipper/parts/index.html",
        "dipper/wiring/index.html",
        "dipper/work/index.html",
        "dipper/setup/index.html",
        "dipper/flight/index.html",
        "dipper/numbers/index.html",
        "dipper/sheet.json",
        "dipper/sheet.js",
        "dipper/parts.csv",
        "dipper/description.txt",
        "compare/dipper/dipper-light/index.html",
        "parts/motor-1404/index.html",
    ):
        assert (workspace / "site" / address).is_file(), address


def test_every_relative_link_and_anchor_resolves(site: tuple[Path, Published]) -> None:
    folder = site[0] / "site"
    pages = {p: _Page(p.read_text("utf-8")) for p in sorted(folder.rglob("*.html"))}
    broken = []
    for path, page in pages.items():
        assert len(set(page.ids)) == len(page.ids), path
        for link in page.links:
            address, anchor = urldefrag(link)
            if ":" in address.split("/")[0]:
                continue
            if address.startswith(
                "/"
            ):  # the page for wrong addresses, which is served at any depth
                assert path.name == "404.html"
            start = folder if address.startswith("/") else path.parent
            target = (
                (start / unquote(address).removeprefix("/builds/")).resolve() if address else path
            )
            if not target.is_file() or (
                anchor and target in pages and anchor not in pages[target].ids
            ):
                broken.append((str(path.relative_to(folder)), link))
    assert broken == []


def test_nothing_changed_writes_nothing(own_published_demo: Path) -> None:
    again = publish_site(PublishOptions(own_published_demo, pdf=False, workers=1))
    assert (again.written, again.removed) == (0, 0)


def test_without_pdf_a_bench_sheet_stays_only_while_it_is_right(tmp_path: Path) -> None:
    pipit_alone(tmp_path)
    publish_site(PublishOptions(tmp_path, workers=1))
    sheet, page = (
        tmp_path / "site" / "pipit" / "bench-sheet.pdf",
        tmp_path / "site" / "pipit" / "index.html",
    )
    made, shown = sheet.read_bytes(), page.read_bytes()
    again = publish_site(PublishOptions(tmp_path, pdf=False, workers=1))
    assert (again.written, again.removed) == (0, 0)
    assert (sheet.read_bytes(), page.read_bytes()) == (made, shown)
    build = tmp_path / "builds" / "pipit" / "build.yaml"
    build.write_text(build.read_text("utf-8").replace("title: ", "title: Other ", 1), "utf-8")
    publish_site(PublishOptions(tmp_path, pdf=False, workers=1))
    assert page.read_bytes() != shown
    assert b"bench-sheet.pdf" in shown
    assert b"bench-sheet.pdf" not in page.read_bytes()  # nothing leads to what is not there
    assert not sheet.exists(), "a sheet of another revision would lead the iron to the wrong pad"


def test_a_broken_build_keeps_its_last_pages(own_published_demo: Path) -> None:
    page = own_published_demo / "site" / "pipit" / "index.html"
    before = page.read_bytes()
    build = own_published_demo / "builds" / "pipit" / "build.yaml"
    build.write_text(build.read_text("utf-8").replace("title:", "titel:", 1), "utf-8")
    done = publish_site(PublishOptions(own_published_demo, pdf=False, workers=1))
    assert done.kept == ("pipit",)
    assert "dipper" in done.published
    assert page.read_bytes() == before


def test_the_bench_sheet_is_tagged_and_the_same_twice(demo: Checked) -> None:
    sheet = demo.sheets["pipit"]
    pages = site_pages(demo.workspace.site)
    made = [
        bench_sheet_pdf(bench_sheet(sheet, pages, sheet.build.digest), pages, template_texts(None))
        for _ in range(2)
    ]
    assert made[0] == made[1]
    with pikepdf.open(io.BytesIO(made[0])) as pdf:
        assert pdf.Root.MarkInfo.Marked
        assert "/StructTreeRoot" in pdf.Root
        assert str(pdf.Root.Lang) == "en"
        assert len(pdf.pages) > 5


def test_a_file_that_was_taken_away_comes_back(own_published_demo: Path) -> None:
    page = own_published_demo / "site" / "dipper" / "parts.csv"
    before = page.read_bytes()
    page.unlink()
    done = publish_site(PublishOptions(own_published_demo, pdf=False, workers=1))
    assert (done.errors, done.written) == ((), 1)
    assert page.read_bytes() == before
