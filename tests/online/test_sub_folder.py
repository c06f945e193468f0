"""The site works from a sub-folder of a plain server, and the page for wrong addresses from any
depth.
"""

from collections.abc import Iterator
from functools import partial
from html.parser import HTMLParser
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from shutil import copytree, ignore_patterns
from threading import Thread
from urllib.error import HTTPError
from urllib.parse import urldefrag, urljoin, urlsplit
from urllib.request import urlopen

import pytest

from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from tests.workspace_edits import ROOT

BASE = "/builds/sheets"  # the path of the demo's address, and a sub-folder of it


class _Page(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.links: set[str] = set()
        self.ids: set[str] = set()
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        own = given.get("rel") not in ("canonical", "alternate")
        self.links |= {v for n, v in attrs if n in ("href", "src") and v and own}
        self.ids |= {v for n, v in attrs if n == "id" and v}


class _Host(SimpleHTTPRequestHandler):
    """Python's own server, which shows our page for wrong addresses as hosts do."""

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        content = (Path(self.directory) / BASE.lstrip("/") / "404.html").read_bytes()
        self.send_response(code)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)

    def log_message(self, format: str, *args: object) -> None:
        pass


@pytest.fixture(scope="module")
def host(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    workspace = tmp_path_factory.mktemp("workspace")
    copytree(
        ROOT / "builds", workspace / "builds", ignore=ignore_patterns("curlew", "redshank", "pipit")
    )
    done = publish_site(PublishOptions(workspace, workers=1, base="/sheets"))
    assert (done.errors, done.left_out) == ((), ())
    root = tmp_path_factory.mktemp("root")
    copytree(workspace / "site", root / BASE.lstrip("/"))
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Host, directory=str(root)))
    Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_address[1]}"
    server.shutdown()
    server.server_close()


def _get(address: str) -> tuple[int, str, bytes]:
    try:
        with urlopen(address, timeout=30) as answer:
            return answer.status, answer.url, answer.read()
    except HTTPError as error:
        with error:
            return error.code, address, error.read()


def test_every_link_of_every_page_leads_somewhere(host: str) -> None:
    waiting, seen, wrong = [f"{host}{BASE}/"], {}, []
    while waiting:
        address = waiting.pop()
        if address in seen:
            continue
        status, place, content = _get(address)
        if status != 200:
            wrong.append(address)
        page = _Page(content.decode("utf-8")) if content.startswith(b"<!doctype html>") else None
        seen[address] = page
        for link in page.links if page else ():
            target = urldefrag(urljoin(place, link)).url
            if target.startswith(host):
                assert urlsplit(target).path.startswith(BASE + "/"), (address, link)
                waiting.append(target)
    assert wrong == []
    assert len([p for p in seen.values() if p]) > 40
    assert any(a.endswith("bench-sheet.pdf") for a in seen)
    for address, page in seen.items():
        for link in page.links if page else ():
            target, anchor = urldefrag(urljoin(address, link))
            found = seen.get(target)
            assert not anchor or found is None or anchor in found.ids, (address, link)


@pytest.mark.parametrize("place", ["/no", "/no/such/page/", "/dipper/no/index.html"])
def test_the_page_for_wrong_addresses_works_at_any_depth(host: str, place: str) -> None:
    status, _, content = _get(f"{host}{BASE}{place}")
    assert status == 404
    page = _Page(content.decode("utf-8"))
    links = [
        urldefrag(urljoin(f"{host}{BASE}{place}", link)).url
        for link in page.links
        if not link.startswith("#")
    ]
    assert len(links) > 5
    assert [link for link in links if _get(link)[0] != 200] == []
