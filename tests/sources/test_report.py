"""Two workspaces: what a copier finds goes back to the giver as a file, is shown there as another's
word, and counts for nothing. A hostile report is refused in a sentence, and nothing is written.
"""

import hashlib
import json
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner, Result

from builder import pipeline
from builder.cli.main import cli
from builder.options import PublishOptions
from builder.pipeline.publish import publish_site
from tests.publish.sources import Sources


def _run(workspace: Path, *words: str) -> Result:
    return CliRunner().invoke(cli, [*words, "--workspace", str(workspace)])


def _giver(workspace: Path) -> None:
    sources = Sources()
    sources.site |= {"author": "The wren bench", "licence": "CC-BY-4.0"}
    sources.builds["wren"]["wires"] = []
    sources.write(workspace)


def _change(file: Path, change: dict[str, Any]) -> None:
    tree = yaml.safe_load(file.read_text("utf-8"))
    for key, value in change.items():
        tree[key] = tree[key] | value if isinstance(tree.get(key), dict) else value
    file.write_text(yaml.safe_dump(tree, sort_keys=False, allow_unicode=True), "utf-8")


@pytest.fixture
def reported(tmp_path: Path) -> tuple[Path, Path]:
    """A giver's workspace, and the report of a copier with other motors who weighed."""
    giver, copier = tmp_path / "giver", tmp_path / "copier"
    _giver(giver)
    publish_site(PublishOptions(giver, pdf=False, workers=1))
    source = str(giver / "site/wren/source.zip")
    assert _run(copier, "start", "mine", "--from", source).exit_code == 0
    assert (
        _run(copier, "add", "part", "motor", "sluice", "--set", "mass.measured=4.6g").exit_code == 0
    )
    motor = {"use": "sluice", "count": 4}
    frame = {"use": "frame-wren", "each_weighed": ["12.9 g"]}
    weighed = [{"what": "dry", "mass": "40.5 g", "date": "2026-11-20"}]
    change = {"parts": {"motor": motor, "frame": frame}, "weighed": weighed, "author": "Bea"}
    _change(copier / "builds/mine/build.yaml", change)
    done = _run(copier, "report", "mine", "--against", source)
    assert done.exit_code == 0, done.output
    file = tmp_path / "report.yaml"
    file.write_text(done.output, "utf-8")
    return giver, file


def test_what_a_copier_found_comes_back(reported: tuple[Path, Path]) -> None:
    giver, file = reported
    said = yaml.safe_load(file.read_text("utf-8"))
    assert said["by"] == "Bea" and said["report"]["of"] == "wren"
    assert said["pieces"]["frame-wren"] == ["12.9 g"]
    assert "Another motor: Sluice in place of Wren motor." in said["found"]
    assert any("40.5 g" in line for line in said["found"])
    before = pipeline.check_workspace(giver).sheets["wren"].results.mass
    shown = _run(giver, "report", "--take", str(file))
    assert shown.exit_code == 0 and "Nothing was written" in shown.output
    assert "passed over, no parts of wren: sluice" in shown.output
    assert _run(giver, "report", "--take", str(file), "--yes").exit_code == 0
    shelf = yaml.safe_load((giver / "builds/shelf/air.yaml").read_text("utf-8"))
    (sample,) = shelf["frame-wren"]["samples"]
    assert sample == {"by": "Bea", "title": "Mine", "pieces": ["12.9 g"]}
    after = pipeline.check_workspace(giver).sheets["wren"].results.mass
    sums = [(one.dry_sum.value, one.dry_sum.spread) for one in (before, after)]
    assert sums[0] == sums[1], "another's word counts for nothing"
    publish_site(PublishOptions(giver, pdf=False, workers=1))
    page = (giver / "site/parts/frame-wren/index.html").read_text("utf-8")
    part = " ".join(page.split())
    assert "Weighed by several people" in part and "2 people" in part
    # 12.4 g and 12.9 g: mean 12.65 g, standard deviation 0.5 / sqrt 2 = 0.354 g, by hand
    assert "12.65" in part and "± 0.35" in part
    sheet = " ".join((giver / "site/wren/parts/index.html").read_text("utf-8").split())
    assert "Built after this one" in sheet and "40.5 g" in sheet
    again = _run(giver, "report", "--take", str(file), "--yes")
    assert again.exit_code == 1 and "was taken in before" in again.output


def test_a_report_that_was_altered_on_the_way_is_refused(reported: tuple[Path, Path]) -> None:
    giver, file = reported
    text = file.read_text("utf-8")
    before = {p: p.read_bytes() for p in (giver / "builds").rglob("*") if p.is_file()}
    file.write_text(text.replace("40.5 g", "30.5 g"), "utf-8")
    done = _run(giver, "report", "--take", str(file), "--yes")
    assert done.exit_code != 0 and "cut or altered on the way" in done.output
    assert {p: p.read_bytes() for p in (giver / "builds").rglob("*") if p.is_file()} == before
    digest = yaml.safe_load(text)["digest"]
    words = {k: v for k, v in yaml.load(text, yaml.BaseLoader).items() if k != "digest"}
    said = json.dumps(words, ensure_ascii=False, sort_keys=True)
    assert digest == hashlib.sha256(said.encode()).hexdigest()
    file.write_text(text, "utf-8")
    assert _run(giver, "report", "--take", str(file), "--yes").exit_code == 0


def test_comments_of_the_author_stay(reported: tuple[Path, Path]) -> None:
    giver, file = reported
    shelf = giver / "builds/shelf/air.yaml"
    text = "# top\n" + shelf.read_text("utf-8").replace(
        "name: Wren frame\n", "name: Wren frame   # ours\n"
    )
    shelf.write_text(text, "utf-8")
    assert _run(giver, "report", "--take", str(file), "--yes").exit_code == 0
    after = shelf.read_text("utf-8")
    kept = [line for line in after.splitlines(keepends=True) if line in text.splitlines(True)]
    assert "".join(kept) == text, "only lines were added"


_HEAD = {"report": {"of": "wren"}, "by": "Bea"}


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\xff",
        b"- a",
        b"report: {of: wren}",
        yaml.safe_dump(_HEAD | {"report": {"of": "../wren"}}).encode(),
        yaml.safe_dump(_HEAD | {"report": {"of": "nobody"}}).encode(),
        yaml.safe_dump(_HEAD | {"run": "rm"}).encode(),
        yaml.safe_dump(_HEAD | {"by": "x" * 100}).encode(),
        yaml.safe_dump(_HEAD | {"by": "  "}).encode(),
        yaml.safe_dump(_HEAD | {"by": "\u202egnp"}).encode(),
        yaml.safe_dump(_HEAD | {"found": ["x" * 500]}).encode(),
        yaml.safe_dump(_HEAD | {"found": ["x"] * 101}).encode(),
        yaml.safe_dump(_HEAD | {"found": ["operator number is A1234567"]}).encode(),
        yaml.safe_dump(_HEAD | {"pieces": {"frame-wren": ["heavy"]}}).encode(),
        yaml.safe_dump(_HEAD | {"pieces": {"frame-wren": ["-3 g"]}}).encode(),
        yaml.safe_dump(_HEAD | {"pieces": {"frame-wren": ["3 g"] * 101}}).encode(),
        yaml.safe_dump(_HEAD | {"pieces": {"frame-wren": "3 g"}}).encode(),
        yaml.safe_dump(_HEAD | {"report": {"of": "wren", "digest": "00"}}).encode(),
        yaml.safe_dump(_HEAD | {"report": {"of": "wren", "digest": "G" * 64}}).encode(),
        yaml.safe_dump(_HEAD | {"report": {"of": "wren", "of ": "x"}}).encode(),
        yaml.safe_dump(_HEAD | {"build": "\x1b]0;x\a"}).encode(),
        yaml.safe_dump(_HEAD | {"pieces": {"../../x": ["3 g"], "frame-wren": ["3 t"]}}).encode(),
        yaml.safe_dump(_HEAD | {"pieces": {f"p{i}": ["3 g"] for i in range(201)}}).encode(),
        b"report: {of: wren}\nby: x\nby: y\n",
        b"report: {of: wren}\n--- \nby: x\n",
        b"PK\x03\x04" + b"\0" * 200,
        b"report: &a {of: wren}\nby: *a\n",
        b"report: !!python/object:os.system {of: wren}\nby: x\n",
        b"report: {of: wren}\nby: x\nfound: " + b"[" * 3000,
        b"report: {of: wren}\nby: x\n" + b"#" * 400_000,
    ],
    ids=range(30),
)
def test_a_hostile_report_is_one_sentence_and_nothing_is_written(
    content: bytes, tmp_path: Path
) -> None:
    _giver(tmp_path)
    before = {p: p.read_bytes() for p in tmp_path.rglob("*.yaml")}
    file = tmp_path / "report"
    file.write_bytes(content)
    done = _run(tmp_path, "report", "--take", str(file), "--yes")
    assert done.exit_code == 1, done.output
    assert done.output.count("benchleaf: ") == 1 and "Traceback" not in done.output
    assert {p: p.read_bytes() for p in tmp_path.rglob("*.yaml")} == before


def test_words_of_a_stranger_are_quoted_so_that_they_stay_words(tmp_path: Path) -> None:
    _giver(tmp_path)
    nasty = ["a: {b: [c]}", "it's 'so' # no comment", "- x", "<script>alert(1)</script>"]
    file = tmp_path / "report"
    file.write_text(yaml.safe_dump(_HEAD | {"found": nasty}), "utf-8")
    assert _run(tmp_path, "report", "--take", str(file), "--yes").exit_code == 0
    build = yaml.safe_load((tmp_path / "builds/wren/build.yaml").read_text("utf-8"))
    assert build["copies"] == [{"by": "Bea", "found": nasty}]
    publish_site(PublishOptions(tmp_path, pdf=False, workers=1))
    page = (tmp_path / "site/wren/parts/index.html").read_text("utf-8")
    assert "<script>alert" not in page and "&lt;script&gt;alert" in page


@pytest.mark.parametrize(
    "words", [("report",), ("report", "wren", "--take", "x"), ("report", "wren")]
)
def test_there_is_a_build_to_report_of(words: tuple[str, ...], tmp_path: Path) -> None:
    _giver(tmp_path)
    done = _run(tmp_path, *words)
    assert done.exit_code == 2 and "Traceback" not in done.output
