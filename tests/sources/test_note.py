"""Notes of the page at the bench go into the build: shown first, behind what is there, with every
comment kept; a hostile file is one sentence, and nothing is written.
"""

import io
import json
import re
import shutil
from base64 import b64encode
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner, Result
from PIL import Image

from builder.cli.main import cli
from builder.load.files import load
from builder.model.read.workspace import read_workspace
from builder.pages.bench.bands import Band, bands_of
from builder.pages.sections.order_of_work import order_of_work
from builder.pipeline.check import Checked, check_workspace, judged_alone

pytestmark = pytest.mark.slow  # takes long

BUILD = "dipper"


@pytest.fixture
def workspace(tmp_path: Path, root: Path) -> Path:
    shutil.copytree(root / "builds", tmp_path / "builds")
    return tmp_path


def _note(workspace: Path, given: object, *words: str) -> Result:
    file = workspace / "notes.json"
    file.write_text(given if isinstance(given, str) else json.dumps(given), "utf-8")
    command = ["note", BUILD, str(file), *words, "--workspace", str(workspace)]
    return CliRunner().invoke(cli, command)


def _notes(read: dict[str, str], **more: object) -> dict[str, Any]:
    head = {"kind": "benchleaf bench notes", "version": 1, "build": BUILD, "saved": "2026-11-20"}
    return {**head, "state": {"read": read, "why": {}, "boxes": {}, "done": {}}, **more}


def _text(workspace: Path) -> str:
    return (workspace / f"builds/{BUILD}/build.yaml").read_text("utf-8")


def _right(band: Band) -> str:
    """A reading that somebody has at a sound build."""
    words = {"joined": "beep", "alike": "1.1M 1.1M 1.2M", "near": "0,2 0,2 0,2", "low": "1"}
    if band.kind != "band" or band.low is None or band.high is None:
        return words.get(band.kind, "no beep")
    return f"{(band.low + band.high) / 2:.1f}".replace(".", ",")


def test_a_whole_build_goes_in_and_stays_clean(workspace: Path, demo: Checked) -> None:
    """Every field of the page filled in as at a sound aircraft: what the check says is as before,
    a second time writes nothing.
    """
    bands = bands_of(demo.sheets[BUILD])
    read = {b.name: _right(b) for b in bands}
    before = _text(workspace)
    shown = _note(workspace, _notes(read))
    assert "Nothing was written" in shown.output
    assert _text(workspace) == before
    assert _note(workspace, _notes(read), "--yes").exit_code == 0
    after = _text(workspace)
    assert [line for line in before.splitlines() if line not in after.splitlines()] == []
    old, new = yaml.safe_load(before), yaml.safe_load(after)
    assert {k for k in new if new[k] != old.get(k)} == {"weighed", "as_built"}
    assert new["as_built"][: len(old["as_built"])] == old["as_built"]
    said = " ".join(line["measured"] for line in new["as_built"])
    assert all(b.label in said for b in bands if not b.weighed)
    assert {"what": "parts", "parts": ["esc"]}.items() <= new["weighed"][6].items()
    checked = check_workspace(workspace, (BUILD,), alternatives=False)
    known = {f.code for f in demo.sheets[BUILD].verdict.faults}
    assert {f.code for f in checked.sheets[BUILD].verdict.faults} == known
    assert not checked.workspace.findings
    again = _note(workspace, _notes(read), "--yes")
    assert "Nothing to write" in again.output
    assert _text(workspace) == after


def test_a_reason_and_a_comma(workspace: Path) -> None:
    notes = _notes({"weigh|weigh-part-esc": "8,8", "gate B|current": "0,31 A"})
    notes["state"]["why"] = {"gate B|current": "Cold morning: it's 5 degC"}
    assert _note(workspace, notes, "--yes").exit_code == 0
    tree = yaml.safe_load(_text(workspace))
    assert tree["weighed"][-1]["mass"] == "8.8 g"
    last = tree["as_built"][-1]
    assert (last["step"], last["measured"]) == ("gate B", "current: 0,31 A")
    assert last["text"] == "current may stand: Cold morning: it's 5 degC."


def test_flights_go_into_the_log_once(workspace: Path) -> None:
    """With the words that the page gives; a battery that the build lacks is passed over."""
    one = "date: 2026-11-20, pack: small, airborne: 312 s, landed_at: 14.1 V, used: 510 mAh"
    other = "date: 2026-11-20, pack: barge, airborne: 312 s"
    notes = _notes({})
    notes["state"]["flights"] = {"a": one, "b": other, "c": "date: 1, x: {y: 2}"}
    result = _note(workspace, notes, "--yes")
    assert result.output.count("is no flight") == 2
    assert yaml.safe_load(_text(workspace))["flights"][-1]["airborne"] == "312 s"
    assert "Nothing to write" in _note(workspace, notes, "--yes").output


def _picture(side: int = 40, kind: str = "JPEG") -> str:
    """A small picture that says where it was taken (Exif 2.3, tag 0x8825), as base64."""
    out, exif = io.BytesIO(), Image.Exif()
    exif[0x010F] = "Invented Camera"
    exif[0x8825] = {1: "N", 2: (47.0, 0.0, 0.0)}
    Image.new("RGB", (side, side), (9, 120, 40)).save(out, kind, exif=exif)
    return b64encode(out.getvalue()).decode()


def _photo(**more: object) -> dict[str, object]:
    said = {"id": "a", "step": "solder camera", "day": "2026-11-20", "words": "It's done"}
    return {**said, "data": _picture(), **more}


def _photos(*photos: object, **more: object) -> dict[str, Any]:
    head = {"kind": "benchleaf bench photographs", "version": 1, "build": BUILD}
    return {**head, "saved": "2026-11-20", "photos": list(photos), **more}


def test_photographs_go_under_their_step_once(workspace: Path) -> None:
    """As a file of the build's folder without what the camera wrote; a second time writes nothing,
    and what somebody put there stays.
    """
    folder, before = workspace / f"builds/{BUILD}", _text(workspace)
    names = {file.name for file in folder.iterdir()}
    given = _photos(_photo(), _photo(step="gate A", words=""), _photo(step="fly home"))
    result = _note(workspace, given, "--yes")
    assert result.exit_code == 0, result.output
    assert "no step 'fly home'" in result.output
    new = sorted({file.name for file in folder.iterdir()} - names)
    assert [re.sub("[0-9a-f]{10}", "", name) for name in new] == [
        "bench-gate-a-.jpg",
        "bench-solder-camera-.jpg",
    ]
    content = (folder / new[1]).read_bytes()
    with Image.open(io.BytesIO(content)) as image:
        assert image.size == (40, 40)
        assert not image.getexif()
    assert b"Invented Camera" not in content
    tree, old = yaml.safe_load(_text(workspace)), yaml.safe_load(before)
    assert tree["photos"][: len(old["photos"])] == old["photos"]
    steps = {p["step"]: p["alt"] for p in tree["photos"] if "step" in p}
    assert steps["solder camera"] == "It's done"
    assert "gate A" in steps
    assert {k for k in tree if tree[k] != old.get(k)} == {"photos"}
    assert "Nothing to write" in _note(workspace, given, "--yes").output
    build = read_workspace(load(workspace)).builds[BUILD]
    shown = str(order_of_work(judged_alone(build)))
    assert new[1] in shown


def test_a_file_of_that_name_is_left_alone(workspace: Path) -> None:
    """Whatever lies there, a link too: one sentence, and nothing is written."""
    before, given = _text(workspace), _photos(_photo())
    assert _note(workspace, given, "--yes").exit_code == 0
    name = yaml.safe_load(_text(workspace))["photos"][-1]["file"]
    (workspace / f"builds/{BUILD}/build.yaml").write_text(before, "utf-8")
    theirs = workspace / f"builds/{BUILD}/{name}"
    theirs.write_bytes(b"theirs")
    assert "is another picture" in _note(workspace, given, "--yes").output
    theirs.unlink()
    theirs.symlink_to("nowhere")
    assert "is another picture" in _note(workspace, given, "--yes").output
    assert _text(workspace) == before


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (_photos("x"), "not in the form"),
        (_photos(_photo(step=7)), "no short text"),
        (_photos(_photo(words="x" * 500)), "no short text"),
        (_photos(_photo(data="%%%")), "is no picture"),
        (_photos(_photo(data="AAAA")), "is none"),
        (_photos(_photo(data=b64encode(b"<svg onload='1'/>").decode())), "is none"),
        (_photos(_photo(words="passcode: 1234")), "take it out"),
        (_photos(*[_photo(data="AAAA")] * 101), "101 photographs"),
        (_photos(_photo(), build="pipit"), "are of 'pipit'"),
        (_photos(photos={}), "not one that the page"),
        (_notes({}, fill="x" * 3_000_000), "are not taken"),
        ('{"version": 1, "a": [' + "[]," * 800_000 + "[]]}", "not one that the page"),
    ],
)
def test_a_hostile_file_of_photographs_is_one_sentence(
    workspace: Path, given: object, said: str
) -> None:
    before, names = _text(workspace), len(list((workspace / f"builds/{BUILD}").iterdir()))
    result = _note(workspace, given, "--yes")
    assert result.exit_code == 1, result.output
    assert said in result.output
    assert "Traceback" not in result.output
    assert _text(workspace) == before
    assert len(list((workspace / f"builds/{BUILD}").iterdir())) == names


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ("[" * 100_000, "not one that the page"),
        ("\x00\x01", "not one that the page"),
        ({"kind": "else"}, "not one that the page"),
        (_notes({}, build="pipit"), "are of 'pipit'"),
        (_notes({}, saved="2999-01-01"), "--date"),
        (_notes({}, saved=7), "--date"),
        (_notes({}, state={"read": {"gate A|current": 3}}), "no short text"),
        (_notes({}, state={"read": [1]}), "not in the form"),
        (_notes({"gate A|current": "x" * 5000}), "no short text"),
    ],
)
def test_a_hostile_file_is_one_sentence(workspace: Path, given: object, said: str) -> None:
    before = _text(workspace)
    result = _note(workspace, given, "--yes")
    assert result.exit_code == 1
    assert said in result.output
    assert "Traceback" not in result.output
    assert _text(workspace) == before


def test_what_looks_like_yaml_stays_text(workspace: Path) -> None:
    """A reading that would be YAML is quoted; what is not on the sheet is named, not written."""
    evil = "1 A'}\n- {what: dry, mass: 1 g}\n#"
    notes = _notes({"gate B|current": evil, "gate Z|else": "5 V", "weigh|weigh-part-esc": "heavy"})
    result = _note(workspace, notes, "--yes")
    assert result.exit_code == 0
    assert "gate Z|else: not on this sheet" in result.output
    assert "no weight" in result.output
    tree = yaml.safe_load(_text(workspace))
    assert len(tree["weighed"]) == 3
    assert tree["as_built"][-1]["measured"].startswith("current: 1 A'}")
