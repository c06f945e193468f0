"""A build that is started from a published one: what comes along, what stays the giver's, and what
is asked.
"""

import json
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
import yaml
from click.testing import CliRunner, Result

from builder.cli.main import cli
from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from tests.publish.sources import Sources


def _giver_sources() -> Sources:
    sources = Sources()
    sources.site |= {"author": "The wren bench", "licence": "CC-BY-4.0", "about": "canary-about"}
    wren = sources.builds["wren"]
    wren["parts"]["motor"] |= {"each_weighed": ["4.2 g", "4.1 g"], "owned": "yes"}
    wren["weighed"] = [{"what": "dry", "mass": "36.4 g", "date": "2026-10-01"}]
    wren["flights"] = [{"date": "2026-10-02", "pack": "small", "airborne": "3 min"}]
    wren["status"] = "flying"
    safe = {"does": "motors stop", "within": "1 s", "tested": "2026-10-01, propellers off"}
    wren["setup"] = {"fail_safe": safe, "landing": {"share": "20 %"}}
    wren["author"] = "Canary Author"
    wren["steps"] = [{"id": "look", "text": "Look at it.", "photo": "top.svg", "alt": "It."}]
    sources.pictures["wren"] = 3
    sources.templates["page.html"] = ""
    return sources


@pytest.fixture(scope="module")
def giver(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A published workspace of somebody else."""
    workspace = tmp_path_factory.mktemp("giver")
    sources = _giver_sources()
    sources.templates.clear()
    sources.write(workspace)
    publish_site(PublishOptions(workspace, pdf=False, workers=1))
    return workspace


@pytest.fixture
def server(giver: Path) -> Iterator[str]:
    class Quiet(SimpleHTTPRequestHandler):
        def log_message(self, format: str, *args: Any) -> None:
            return

    made = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(giver / "site")))
    Thread(target=made.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{made.server_port}"
    made.shutdown()
    made.server_close()


def _start(workspace: Path, source: str, *more: str, text: str | None = None) -> Result:
    words = ["start", "mine", "--from", source, "--workspace", str(workspace), *more]
    return CliRunner().invoke(cli, words, input=text)


def _built(workspace: Path) -> dict[str, Any]:
    made: dict[str, Any] = yaml.safe_load((workspace / "builds/mine/build.yaml").read_text("utf-8"))
    return made


def _files(folder: Path) -> dict[str, bytes]:
    return {
        str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()
    }


def test_archive_folder_and_address_give_the_same_build(
    giver: Path, server: str, tmp_path: Path
) -> None:
    places = {
        "zip": str(giver / "site/wren/source.zip"),
        "site": str(giver / "site/wren"),
        "folder": str(giver / "builds/wren"),
        "address": f"{server}/wren/source.zip",
    }
    made = {}
    for kind, place in places.items():
        done = _start(tmp_path / kind, place)
        assert done.exit_code == 0, done.output
        assert "does not show who made it" in done.output and "CC-BY-4.0" in done.output
        made[kind] = _files(tmp_path / kind / "builds")
    assert made["zip"] == made["site"] == made["folder"] == made["address"]
    assert set(made["zip"]) == {
        "site.yaml",
        "shelf/for-mine.yaml",
        "mine/build.yaml",
        "mine/top.svg",
    }
    assert not any(b"canary-about" in content for content in made["zip"].values())


def test_facts_stay_the_givers_and_credit_is_shown(giver: Path, tmp_path: Path) -> None:
    assert _start(tmp_path, str(giver / "site/wren")).exit_code == 0
    built = _built(tmp_path)
    assert built["status"] == "planned"
    gone = {"weighed", "flights", "author", "accept", "changes", "give_source"}
    assert not gone & set(built)
    assert set(built["parts"]["motor"]) == {"use", "count"}
    assert built["setup"]["fail_safe"] == {"does": "motors stop", "within": "1 s"}
    (origin,) = built["origin"]
    assert (origin["author"], origin["licence"]) == ("Canary Author", "CC-BY-4.0")
    said = "\n".join(origin["history"])
    for words in ("Status: flying", "36.4 g", "log: 1", "4.2 g, 4.1 g", "propellers off"):
        assert words in said
    shelf = yaml.safe_load((tmp_path / "builds/shelf/for-mine.yaml").read_text("utf-8"))
    assert shelf["frame-wren"]["mass"] == {"measured": "12.4 g", "measured_by": "Canary Author"}
    publish_site(PublishOptions(tmp_path, pdf=False, workers=1))
    sheet = (tmp_path / "site/mine/index.html").read_text("utf-8")
    parts = (tmp_path / "site/mine/parts/index.html").read_text("utf-8")
    assert "Started from Wren by Canary Author" in sheet
    assert "Where it comes from" in parts and "CC-BY-4.0" in parts
    assert "Weighed, dry: 36.4" in parts


def _figures(workspace: Path, build: str) -> dict[str, Any]:
    data = json.loads((workspace / "site" / build / "sheet.json").read_text("utf-8"))
    found: dict[str, Any] = data["figures"]
    return found


def test_a_mass_of_anothers_piece_has_the_scatter_of_pieces(giver: Path, tmp_path: Path) -> None:
    """One piece of the frame: the giver's row is that piece, the copier's another of its kind, which
    differs by the site's scatter (1 % where nobody says another) of 12.4 g.
    """
    assert _start(tmp_path, str(giver / "site/wren")).exit_code == 0
    publish_site(PublishOptions(tmp_path, pdf=False, workers=1))
    theirs, ours = _figures(giver, "wren"), _figures(tmp_path, "mine")
    before, after = theirs["wren/mass/frame"], ours["mine/mass/frame"]
    assert after["value"] == pytest.approx(before["value"])
    scatter = yaml.safe_load((tmp_path / "builds/site.yaml").read_text("utf-8"))["spreads"]
    share = float(scatter.get("piece_scatter", "1 %").split()[0]) / 100
    wanted = (before["spread"] ** 2 + (share * 0.0124) ** 2) ** 0.5
    assert after["spread"] == pytest.approx(wanted, rel=0.02)


def test_a_second_start_takes_what_is_there_already(giver: Path, tmp_path: Path) -> None:
    assert _start(tmp_path, str(giver / "site/wren")).exit_code == 0
    before = _files(tmp_path / "builds")
    words = ["start", "again", "--from", str(giver / "site/wren"), "--workspace", str(tmp_path)]
    assert CliRunner().invoke(cli, words).exit_code == 0
    after = _files(tmp_path / "builds")
    assert {k for k in after if k not in before} == {"again/build.yaml", "again/top.svg"}
    assert {k: after[k] for k in before} == before


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A workspace with a motor of the same name that weighs otherwise."""
    sources = Sources()
    sources.shelf["air.yaml"]["motor-wren"]["mass"] = {"measured": "5.0 g"}
    sources.write(tmp_path)
    return tmp_path


def test_a_part_that_differs_is_shown_and_nothing_written_where_nobody_can_be_asked(
    giver: Path, own: Path
) -> None:
    before = _files(own)
    done = _start(own, str(giver / "site/wren"))
    assert done.exit_code == 2
    assert "motor-wren differs (yours in shelf/air.yaml)" in done.output
    assert "5.0 g" in done.output and "4.1 g" in done.output
    assert "On your shelf these differ: motor-wren. Say --theirs, --ours or --rename" in done.output
    assert _files(own) == before


@pytest.mark.parametrize(("choice", "mass"), [("ours", "5.0 g"), ("theirs", "4.1 g")])
def test_ours_and_theirs(giver: Path, own: Path, choice: str, mass: str) -> None:
    before = _files(own)
    done = _start(own, str(giver / "site/wren"), f"--{choice}")
    assert done.exit_code == 0, done.output
    air = yaml.safe_load((own / "builds/shelf/air.yaml").read_text("utf-8"))
    assert mass in str(air["motor-wren"]["mass"])
    assert _built(own)["parts"]["motor"]["use"] == "motor-wren"
    changed = {k for k, v in _files(own).items() if k in before and before[k] != v}
    assert changed <= (
        {"builds/shelf/air.yaml", "builds/shelf/bench.yaml"} if choice == "theirs" else set()
    )


def test_rename_keeps_both(giver: Path, own: Path) -> None:
    before = _files(own)
    done = _start(own, str(giver / "site/wren"), "--rename")
    assert done.exit_code == 0, done.output
    assert {k: _files(own)[k] for k in before} == before
    assert _built(own)["parts"]["motor"]["use"] == "motor-wren-wren"
    checked = CliRunner().invoke(cli, ["check", "mine", "--workspace", str(own)])
    assert "mistake" not in checked.output


def test_who_gives_no_source_gives_none_by_folder_either(giver: Path, tmp_path: Path) -> None:
    sources = Sources()
    sources.site["give_source"] = "no"
    sources.write(tmp_path / "theirs")
    done = _start(tmp_path / "own", str(tmp_path / "theirs/builds/wren"))
    assert done.exit_code == 1 and "does not give its source" in done.output
    assert not (tmp_path / "own").exists()


@pytest.mark.parametrize("name", ["CON", "../up", "Ünfit", "site"])
def test_a_name_that_cannot_be_is_refused(giver: Path, tmp_path: Path, name: str) -> None:
    words = ["start", name, "--from", str(giver / "site/wren"), "--workspace", str(tmp_path / "w")]
    done = CliRunner().invoke(cli, words)
    assert done.exit_code == 2 and not (tmp_path / "w").exists()


def test_one_beginning_only(tmp_path: Path) -> None:
    assert _start(tmp_path, "x.zip", "--like", "dipper").exit_code == 2
    words = ["start", "mine", "--rename", "--workspace", str(tmp_path)]
    assert CliRunner().invoke(cli, words).exit_code == 2
    assert not list(tmp_path.iterdir())
