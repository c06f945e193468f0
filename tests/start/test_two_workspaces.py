"""The demo is published; a second workspace starts from its Dipper, and from its Turnstone with six
rotors and two joined batteries, by folder, archive and address. Every number agrees where nothing
was changed.
"""

import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from shutil import copytree
from threading import Thread
from typing import Any

import pytest
import yaml
from click.testing import CliRunner, Result

from builder import pipeline
from builder.cli.main import cli
from builder.pipeline.published import Published

PublishedDemo = tuple[Path, Published]


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        return


@pytest.fixture
def served(published_demo: PublishedDemo) -> Iterator[str]:
    folder = str(published_demo[0] / "site")
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=folder))
    Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


def _run(workspace: Path, *words: str) -> Result:
    return CliRunner().invoke(cli, [*words, "--workspace", str(workspace)])


def _files(workspace: Path) -> dict[str, bytes]:
    found = (p for p in sorted((workspace / "builds").rglob("*")) if p.is_file())
    return {str(p.relative_to(workspace)): p.read_bytes() for p in found}


def _figures(workspace: Path, build: str) -> dict[str, tuple[float, frozenset[str]]]:
    """Every figure by its key without the build's name: its value, and what it was made from, each
    with its value.
    """
    sheet = pipeline.check_workspace(workspace, (build,)).sheets[build]
    made_from: dict[str, frozenset[str]] = {}
    out: dict[str, tuple[float, frozenset[str]]] = {}
    for figure in sheet.figures:  # inputs come before what uses them
        below = [made_from[each.key] for each in figure.inputs if each.key in made_from]
        name = figure.key.removeprefix(f"{build}/")
        leaf = frozenset((f"{name} {figure.value!r}",)) if figure.formula is None else frozenset()
        made_from[figure.key] = leaf.union(*below)
        out[name] = (figure.value, made_from[figure.key])
    return out


def _same_where_nothing_changed(
    theirs: dict[str, tuple[float, frozenset[str]]], ours: dict[str, tuple[float, frozenset[str]]]
) -> set[str]:
    """The figures that were made from the same, of which each has the same value."""
    same = {k for k in theirs.keys() & ours if theirs[k][1] == ours[k][1]}
    assert {k for k in same if theirs[k][0] != pytest.approx(ours[k][0], rel=1e-9)} == set()
    return same


@dataclass(frozen=True)
class _Copied:
    """A build that is copied, what its copier changes, and how much that leaves as it was: figures
    of `alike` were made from this motor in the demo too.
    """

    build: str
    title: str
    motor: str
    dry: str
    wire: str
    alike: str


_COPIED = (
    _Copied("dipper", "Dipper 3", "motor-1303", "143.2 g", "91 mm", "dipper-light"),
    _Copied("turnstone", "Turnstone 6", "motor-1303", "331.4 g", "86 mm", "dipper-light"),
)


@pytest.mark.parametrize("copied", _COPIED, ids=lambda copied: copied.build)
def test_a_second_workspace_starts_changes_weighs_and_gives_back(
    published_demo: PublishedDemo, served: str, tmp_path: Path, copied: _Copied
) -> None:
    home, name = published_demo[0], copied.build
    archive = str(home / f"site/{name}/source.zip")
    places = {
        "zip": archive,
        "folder": str(home / f"site/{name}"),
        "address": f"{served}/{name}/source.zip",
    }
    made = {}
    for kind, place in places.items():
        done = _run(tmp_path / kind, "start", "weir", "--from", place)
        assert done.exit_code == 0, done.output
        made[kind] = _files(tmp_path / kind)
    assert made["zip"] == made["folder"] == made["address"]
    copier = tmp_path / "zip"
    (copier / "builds/site.yaml").write_bytes((home / "builds/site.yaml").read_bytes())
    settings = yaml.safe_load((copier / "builds/site.yaml").read_text("utf-8"))
    del settings["compare"]
    text = yaml.safe_dump(settings, allow_unicode=True)
    (copier / "builds/site.yaml").write_text(text, "utf-8")
    theirs, ours = _figures(home, name), _figures(copier, "weir")
    unchanged = _same_where_nothing_changed(theirs, ours)
    assert len(unchanged) > 500, len(unchanged)
    # what a battery has kept hangs on the cycles of the giver's own
    parts = {k for k in theirs if k.startswith("shelf/") and not k.endswith("/kept")}
    assert len(parts) > 100 and parts <= unchanged

    motors = f"{served}/parts/{copied.motor}/part.yaml"
    done = _run(copier, "add", "part", "--from", motors)
    assert done.exit_code == 0, done.output
    file = copier / "builds/weir/build.yaml"
    tree = yaml.safe_load(file.read_text("utf-8"))
    tree["parts"]["motor"]["use"] = copied.motor
    tree["parts"]["camera"]["each_weighed"] = ["9.1 g"]
    tree["weighed"] = [{"what": "dry", "mass": copied.dry, "scale": "0.1 g"}]
    tree["wires"][0]["length"] = copied.wire
    tree["author"] = "Bea"
    file.write_text(yaml.safe_dump(tree, sort_keys=False, allow_unicode=True), "utf-8")
    done = _run(copier, "publish", "--no-pdf", "--workers", "1")
    assert done.exit_code == 0, done.output
    sheet = " ".join((copier / "site/weir/index.html").read_text("utf-8").split())
    first_author = str(yaml.safe_load((home / "builds/site.yaml").read_text("utf-8"))["author"])
    assert copied.title in sheet and first_author in sheet, "the first is credited"
    assert (copier / "site/weir/source.zip").is_file()
    lighter = _figures(copier, "weir")
    still = _same_where_nothing_changed(theirs, lighter)
    assert 200 < len(still) < len(unchanged)
    own = _figures(home, copied.alike)
    of_motor = {k for k in own if k.startswith(f"shelf/{copied.motor}/")}
    assert of_motor and of_motor <= _same_where_nothing_changed(own, lighter)
    done = _run(copier, "report", "weir", "--against", archive)
    assert done.exit_code == 0, done.output
    assert f"{copied.wire}, not" in done.output and copied.dry in done.output
    assert "Another motor:" in done.output
    report = tmp_path / "report.yaml"
    report.write_text(done.output, "utf-8")
    first = tmp_path / "first"
    copytree(home / "builds", first / "builds")
    before = _figures(first, name)
    taken = _run(first, "report", "--take", str(report), "--yes")
    assert taken.exit_code == 0, taken.output
    assert _figures(first, name) == before
    build = yaml.safe_load((first / f"builds/{name}/build.yaml").read_text("utf-8"))
    (copy,) = build["copies"]
    assert copy["by"] == "Bea" and any(copied.dry in line for line in copy["found"])


_DIES = """
import os
from builder.cli.main import cli
from builder.publish import plain_files
def dies(aside, path):
    os._exit(9)
plain_files.os.replace = dies
cli({words!r})
"""


def test_a_kill_between_write_and_replace_loses_nothing(
    published_demo: PublishedDemo, tmp_path: Path
) -> None:
    """Under --theirs one's own file of the shelf is replaced last: killed just before that, it is as
    it was to the byte, the new build is whole, and a second try under another name goes through.
    """
    source = str(published_demo[0] / "site/dipper/source.zip")
    shelf = tmp_path / "builds/shelf/mine.yaml"
    shelf.parent.mkdir(parents=True)
    own = "# mine\nfc-hex: {kind: flight-controller, name: My own, mass: 5.5 g}   # keep me\n"
    shelf.write_text(own, "utf-8")
    where = ["--workspace", str(tmp_path)]
    words = ["start", "weir", "--from", source, "--theirs", *where]
    code = _DIES.format(words=words)
    done = subprocess.run([sys.executable, "-c", code], check=False, env=dict(os.environ))
    assert done.returncode == 9
    assert shelf.read_text("utf-8") == own
    loaded, model = pipeline.read(tmp_path)
    assert "fc-hex" in model.shelf and model.shelf["fc-hex"].part.name == "My own"
    assert loaded.documents["weir/build.yaml"].text.startswith("# Started from")
    again = CliRunner().invoke(cli, ["start", "weir-b", "--from", source, "--theirs", *where])
    assert again.exit_code == 0, again.output
    text = shelf.read_text("utf-8")
    assert text.startswith("# mine\n") and "Hexwater" in text
