"""A build that is started from one with a guide: chapters, pictures and files come along, credit
stays, and what the giver measured is not known yet.
"""

from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner

from builder.cli.main import cli
from builder.options import PublishOptions
from builder.pipeline.beside.taken_guide import own_guide
from builder.pipeline.check import judged_alone, read
from builder.pipeline.publish import publish_site
from builder.render.data.given_guide import GivenGuide
from tests.workspace_edits import pipit_alone

pytestmark = pytest.mark.slow  # takes long

ROOT = Path(__file__).resolve().parents[2]
_LOST = "It weighed {figure:weighed/canary} on our scale."


@pytest.fixture(scope="module")
def giver(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A workspace with one published build that has chapters and a file."""
    home = tmp_path_factory.mktemp("giver")
    build = pipit_alone(home)
    (build / "shape.stl").write_bytes(b"solid wedge\nendsolid wedge\n")
    (build / "guide/last.md").write_text("# Last\n\nPrint [the wedge](files:wedge.stl).\n")
    with (build / "build.yaml").open("a") as text:
        text.write("files:\n  - {name: wedge.stl, what: A wedge to print, file: shape.stl}\n")
    publish_site(PublishOptions(home, pdf=False, workers=1))
    return home


def _started(workspace: Path, source: Path) -> dict[str, bytes]:
    words = ["start", "mine", "--from", str(source), "--workspace", str(workspace)]
    done = CliRunner().invoke(cli, words)
    assert done.exit_code == 0, done.output
    mine = workspace / "builds/mine"
    found = (p for p in mine.rglob("*") if p.is_file())
    return {p.relative_to(mine).as_posix(): p.read_bytes() for p in found}


def test_the_guide_comes_along_from_the_archive_and_from_the_folder(
    giver: Path, tmp_path: Path
) -> None:
    made = _started(tmp_path / "zip", giver / "site/pipit/source.zip")
    chapters = {"guide/first-evening.md", "guide/last.md", "guide/battery-pads.svg", "shape.stl"}
    assert chapters <= set(made)
    assert made["shape.stl"] == (giver / "builds/pipit/shape.stl").read_bytes()
    assert made == _started(tmp_path / "folder", giver / "builds/pipit")


def test_each_chapter_says_from_whose_guide_it_was_begun(giver: Path, tmp_path: Path) -> None:
    made = _started(tmp_path, giver / "site/pipit/source.zip")
    (origin,) = yaml.safe_load(made["build.yaml"])["origin"]
    assert origin["chapters"] == ["first-evening", "last"]
    done = publish_site(PublishOptions(tmp_path, pdf=False, workers=1))
    assert not [f.message for f in done.findings if f.severity == "mistake"]
    for chapter in ("", "first-evening/", "last/"):
        page = tmp_path / f"site/mine/guide/{chapter}index.html"
        text = page.read_text("utf-8")
        assert "Begun from the guide of" in text and origin["author"] in text, page


def test_a_figure_of_the_givers_aircraft_alone_is_not_known_yet(
    giver: Path, tmp_path: Path
) -> None:
    sheet = judged_alone(read(giver)[1].builds["pipit"])
    text = f"# A\n\n{_LOST} Here it is {{figure: mass/dry }}.\n"
    own = own_guide(sheet, GivenGuide({"a.md": text}))
    assert own.chapters["a.md"] == text.replace("{figure:weighed/canary}", "(not known yet)")
    assert own.unknown == ()
    gone = own_guide(sheet, GivenGuide({"a.md": "# A\n\n[x](step:nowhere)\n"}))
    assert [f.code for f in gone.unknown] == ["data/guide-name"]
