"""What the preview serves and what it refuses: other hosts' names, other origins, and everything
but the site.
"""

import json
import re
from http.client import HTTPConnection, HTTPResponse
from pathlib import Path
from shutil import copytree, ignore_patterns

import pytest

from builder.cli.preview import running
from builder.cli.preview_server import PreviewServer
from builder.options import PublishOptions
from builder.pipeline.preview.preview import Preview
from builder.pipeline.publish import publish_site
from builder.render.headers import HEADERS
from builder.render.html.policy import POLICY
from tests.workspace_edits import ROOT


def _answer(server: PreviewServer, path: str, **headers: str) -> tuple[HTTPResponse, bytes]:
    link = HTTPConnection("127.0.0.1", server.server_address[1], timeout=30)
    try:
        link.request("GET", path, headers={k.replace("_", "-"): v for k, v in headers.items()})
        answer = link.getresponse()
        return answer, answer.read()
    finally:
        link.close()


def test_it_listens_on_this_machine_only(server: PreviewServer) -> None:
    assert server.server_address[0] == "127.0.0.1"


def test_a_page_has_the_recommended_headers_and_the_pages_policy(server: PreviewServer) -> None:
    answer, page = _answer(server, "/dipper/")
    assert answer.status == 200
    for name, value in HEADERS.items():
        assert answer.getheader(name) == value
    assert f'content="{POLICY}"'.encode() in page  # the preview loosens nothing
    assert b'<script src="/-/preview/preview.js"' in page
    assert b"<h1>Dipper 3</h1>" in page


# A name of somebody else's can be made to lead to 127.0.0.1 (DNS rebinding); the Host field then
# says that name.
@pytest.mark.parametrize(
    "host",
    ["evil.example", "evil.example:{port}", "127.0.0.1", "localhost:1", "", "0.0.0.0:{port}"],
)
def test_another_host_is_refused(server: PreviewServer, host: str) -> None:
    port = str(server.server_address[1])
    answer, page = _answer(server, "/dipper/", Host=host.replace("{port}", port))
    assert answer.status == 403
    assert b"Dipper" not in page


def test_localhost_is_this_machine(server: PreviewServer) -> None:
    assert _answer(server, "/", Host=f"localhost:{server.server_address[1]}")[0].status == 200


# Fetch Metadata (W3C): a browser says where a request comes from.
@pytest.mark.parametrize(
    "path", ["/dipper/sheet.js", "/-/preview/news.js?page=/dipper/&seen=&own=", "/dipper/"]
)
def test_another_origin_may_load_nothing(server: PreviewServer, path: str) -> None:
    for site in ("cross-site", "same-site"):
        answer, content = _answer(
            server, path, Sec_Fetch_Site=site, Sec_Fetch_Mode="no-cors", Sec_Fetch_Dest="script"
        )
        assert answer.status == 403
        assert b"ipper" not in content


def test_a_link_from_elsewhere_may_be_followed(server: PreviewServer) -> None:
    opened = {
        "Sec_Fetch_Site": "cross-site",
        "Sec_Fetch_Mode": "navigate",
        "Sec_Fetch_Dest": "document",
    }
    assert _answer(server, "/dipper/", **opened)[0].status == 200


@pytest.mark.parametrize(
    "path",
    [
        "/../builds/site.yaml",
        "/dipper/../../builds/site.yaml",
        "/dipper/%2e%2e/%2e%2e/builds/site.yaml",
        "/dipper/..%2f..%2fbuilds%2fsite.yaml",
        "/dipper/build.yaml",
        "/builds/site.yaml",
        "/assets/../sheet.css",
        "/assets//sheet.css",
        "/assets/%00sheet.css",
        "//etc/passwd",
        "/etc/passwd",
        "/.benchleaf.json",
        "/assets/",
        "/dipper/secret.svg",
        "/dipper/drip-loop.svg/",
        "/dipper\\..\\..\\builds\\site.yaml",
    ],
)
def test_nothing_but_the_site_is_served(server: PreviewServer, workspace: Path, path: str) -> None:
    (workspace / "secret.svg").write_text(
        "<svg xmlns='http://www.w3.org/2000/svg'><text>secret</text></svg>", "utf-8"
    )
    link = workspace / "builds" / "dipper" / "secret.svg"
    if not link.is_symlink():
        link.symlink_to(workspace / "secret.svg")
    answer, page = _answer(server, path)
    assert answer.status == 404
    assert b"Page not found" in page
    assert b"secret" not in page


def test_a_named_picture_that_leads_outside_is_not_served(tmp_path: Path) -> None:
    copytree(ROOT / "builds", tmp_path / "builds")
    picture, outside = tmp_path / "builds" / "dipper" / "drip-loop.svg", tmp_path / "outside.svg"
    picture.rename(outside)
    picture.symlink_to(outside)
    shown = Preview(tmp_path)
    with running(PreviewServer(shown, 0)) as server:
        assert _answer(server, "/dipper/drip-loop.svg")[0].status == 404
        assert "data/picture" in {f.code for f in shown.state("dipper/index.html").findings}
        picture.unlink()
        outside.rename(picture)
        shown.refresh()
        assert _answer(server, "/dipper/drip-loop.svg")[0].status == 200
        assert "data/picture" not in {f.code for f in shown.state("dipper/index.html").findings}


def test_a_folder_without_its_slash_leads_to_the_page(server: PreviewServer) -> None:
    answer, _ = _answer(server, "/dipper")
    assert (answer.status, answer.getheader("Location")) == (301, "/dipper/")


def test_what_the_browser_has_is_not_sent_again(server: PreviewServer) -> None:
    first, _ = _answer(server, "/assets/sheet.css")
    again, content = _answer(
        server, "/assets/sheet.css", If_None_Match=first.getheader("ETag") or ""
    )
    assert (again.status, content) == (304, b"")


def test_writing_is_refused(server: PreviewServer) -> None:
    link = HTTPConnection("127.0.0.1", server.server_address[1], timeout=30)
    link.request("POST", "/dipper/", b"x")
    assert link.getresponse().status == 501
    link.close()


def test_news_come_as_a_script_with_the_findings_of_the_page(server: PreviewServer) -> None:
    answer, script = _answer(server, "/-/preview/news.js?page=/curlew/&seen=&own=")
    assert answer.getheader("Content-Type") == "text/javascript; charset=utf-8"
    found = re.fullmatch(r"benchleafPreview\((.*)\);\n", script.decode())
    assert found is not None
    told = json.loads(found[1])
    assert "curlew/build.yaml" in told["text"]
    assert "[radio/margin-small]" in told["text"]
    assert told["bad"] is False


def test_every_file_is_the_one_that_would_be_published(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of a publish that prints, since a preview prints what is asked for and its pages lead there.
    What is on the paper takes a minute and is held elsewhere: tests/test_same_bytes.py.
    """
    monkeypatch.setattr("builder.render.paper.pdf.bench_sheet_pdf", lambda *_, **__: b"%PDF-")
    copytree(
        ROOT / "builds",
        tmp_path / "builds",
        ignore=ignore_patterns("curlew", "redshank", "pipit", "turnstone"),
    )
    assert publish_site(PublishOptions(tmp_path, workers=1)).left_out == ()
    shown, site = Preview(tmp_path), tmp_path / "site"
    files = [p.relative_to(site).as_posix() for p in sorted(site.rglob("*")) if p.is_file()]
    printed = {f for f in files if f.endswith((".pdf", "/card.png"))}
    assert {f for f in printed if f.endswith(".pdf")} == {
        f"{build}/{paper}.pdf"
        for build in ("dipper", "dipper-light")
        for paper in ("bench-sheet", "field-card", "gates")
    }
    pages = [f for f in files if not f.startswith(".") and f not in printed]
    wrong = [f for f in pages if shown.file(f) != (site / f).read_bytes()]
    assert wrong == []
    assert len(pages) > 50
