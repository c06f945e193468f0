"""The recipe of the README says the headers that we recommend, and a real server understands it."""

import re
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from http.client import HTTPConnection
from pathlib import Path

import pytest

from builder.render.headers import HEADERS
from tests.workspace_edits import ROOT

_FOUND = re.search(r"```nginx\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.S)
RECIPE = _FOUND[1] if _FOUND else ""


def test_the_recipe_has_every_recommended_header() -> None:
    said = dict(re.findall(r"add_header (\S+) (?:\"([^\"]*)\"|(?:\S+)) always;", RECIPE))
    said |= dict(re.findall(r"add_header (\S+) ([^\"\s]\S*) always;", RECIPE))
    assert {n: v for n, v in said.items() if n in HEADERS} == HEADERS


@pytest.fixture
def served(tmp_path: Path) -> Iterator[int]:
    program = shutil.which("nginx") or shutil.which("nginx", path="/usr/sbin")
    if program is None:
        pytest.skip("no nginx on this machine to try the recipe with")
    site = tmp_path / "site"
    for name in ("index.html", "404.html", "assets/sheet.css", "dipper/sheet.json"):
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_text(name + " words" * 1000, "utf-8")
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    recipe = RECIPE.replace("/var/www/sheets", str(site)).replace(
        "listen 80", f"listen 127.0.0.1:{port}"
    )
    types = "types { text/html html; text/css css; application/json json; }"
    temp = " ".join(
        f"{kind}_temp_path {tmp_path}/{kind};"
        for kind in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    )
    user = f"user {tmp_path.owner()};" if tmp_path.owner() == "root" else ""
    (tmp_path / "conf").write_text(
        f"{user} daemon off; pid {tmp_path}/pid; error_log {tmp_path}/log; events {{}}\n"
        f"http {{ {types} access_log off; {temp}\n{recipe} }}\n",
        "utf-8",
    )
    process = subprocess.Popen(
        [program, "-c", str(tmp_path / "conf"), "-p", str(tmp_path)], stderr=subprocess.PIPE
    )
    for _ in range(100):
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                break
        assert process.poll() is None, process.stderr.read() if process.stderr else ""
        time.sleep(0.05)
    yield port
    process.terminate()
    process.wait(10)
    if process.stderr:
        process.stderr.close()


def _ask(port: int, path: str) -> tuple[int, dict[str, str], bytes]:
    link = HTTPConnection("127.0.0.1", port, timeout=10)
    link.request("GET", path, headers={"Accept-Encoding": "gzip"})
    answer = link.getresponse()
    found = (answer.status, dict(answer.getheaders()), answer.read())
    link.close()
    return found


def test_a_server_of_ones_own_does_as_the_recipe_says(served: int) -> None:
    for path, keep in (
        ("/", "no-cache"),
        ("/assets/sheet.css", "max-age=86400"),
        ("/dipper/sheet.json", "no-cache"),
    ):
        status, headers, content = _ask(served, path)
        assert status == 200
        assert {n: headers.get(n) for n in HEADERS} == HEADERS
        assert headers["Cache-Control"] == keep
        assert (headers["Content-Encoding"], headers["Vary"]) == ("gzip", "Accept-Encoding")
        assert len(content) < 500
    assert _ask(served, "/")[1]["Content-Type"] == "text/html; charset=utf-8"
    status, headers, _ = _ask(served, "/no/such/page")
    assert status == 404
    assert headers["Content-Security-Policy"] == HEADERS["Content-Security-Policy"]
