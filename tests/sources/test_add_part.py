"""A part onto one's own shelf: asked for, set by fields, or as somebody gives it."""

from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result

from builder import pipeline
from builder.cli.main import cli
from builder.pipeline.sources.asking import Asked, Asking
from builder.pipeline.sources.workbench import Settled

pytestmark = pytest.mark.slow  # takes long

_SHELF = "builds/shelf/own-parts.yaml"


def _add(workspace: Path, *words: str, text: str | None = None) -> Result:
    given = ["add", *words, "--workspace", str(workspace)]
    return CliRunner().invoke(cli, given, input=text)


def _shelf(workspace: Path) -> dict[str, dict[str, object]]:
    found: dict[str, dict[str, object]] = yaml.safe_load((workspace / _SHELF).read_text("utf-8"))
    return found


def test_fields_are_set_and_what_is_there_stays(tmp_path: Path) -> None:
    words = ("part", "pack", "own-650", "--set", "cells=4S", "--set", "capacity=650mAh")
    assert _add(tmp_path, *words).exit_code == 0
    before = (tmp_path / _SHELF).read_text("utf-8")
    done = _add(tmp_path, "part", "motor", "own-motor", "--set", "leads.gauge=28 AWG")
    assert done.exit_code == 0, done.output
    after = (tmp_path / _SHELF).read_text("utf-8")
    assert after.startswith(before.rstrip())
    assert _shelf(tmp_path)["own-motor"]["leads"] == {"gauge": "28 AWG"}
    assert _shelf(tmp_path)["own-650"]["capacity"] == "650mAh"
    assert "# charge that it holds" in before
    model = pipeline.read(tmp_path)[1]
    assert set(model.shelf) == {"own-650", "own-motor"} and not model.findings


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("part", "pak", "x"), "Did you mean 'pack'?"),
        (("part", "pack", "own"), "stands in builds/shelf/own-parts.yaml already"),
        (("part", "pack", "OWN"), "stands in builds/shelf/own-parts.yaml already"),
        (("part", "pack", "../own"), "cannot name a part of the shelf"),
        (("part", "pack", "aux"), "cannot name a part of the shelf"),
        (("part", "pack", "b", "--set", "mass=71"), "has no unit"),
        (("part", "pack", "b", "--set", "mas=71 g"), "Did you mean 'mass'?"),
        (("part", "pack", "b", "--set", "mass"), "does not say a field and a value"),
        (("part", "pack", "b", "--set", "mass=1 g", "--set", "mass=2 g"), "is set twice"),
        (("part", "pack", "b", "--set", f"note={'n' * 30_000}"), "at most 20000 are taken"),
        (("part", "pack", "b", "--set", f"pads={'{a: ' * 3_000}1{'}' * 3_000}"), "group of keys"),
        (
            ("part", "pack", "b", "--set", "mass=!!python/name:os.system"),
            "cannot be read as a mass",
        ),
        (("part", "pack", "b", "--set", "note=a\udc80"), "a character that no text needs"),
        (("part", "pack", "b", "--set", "__class__=x"), "is not a key that is known"),
        (("part", "pack", "b", "--file", "../site.yaml"), "is no name of a shelf file"),
        (("part", "pack", "b", "--file", "b.txt"), "is no name of a shelf file"),
        (("part", "--from", "http://10.0.0.1/part.yaml"), "private network"),
        (("part", "--from", "nowhere.yaml"), "cannot be read"),
    ],
)
def test_what_cannot_be_is_one_sentence_and_nothing_is_written(
    words: tuple[str, ...], said: str, tmp_path: Path
) -> None:
    assert _add(tmp_path, "part", "pack", "own", "--set", "cells=4S").exit_code == 0
    before = {p: p.read_bytes() for p in tmp_path.rglob("*.yaml")}
    done = _add(tmp_path, *words)
    assert done.exit_code in (1, 2) and said in done.output
    assert done.output.count("benchleaf: ") == 1 and "Traceback" not in done.output
    assert {p: p.read_bytes() for p in tmp_path.rglob("*.yaml")} == before


def test_it_asks_and_does_not_know_is_an_answer(tmp_path: Path) -> None:
    """The receiver: what it draws comes first (five rules of power need it), a wrong spelling is
    answered at once, and an empty line is 'not known'.
    """
    lines = "80 mA\n9.3\n9.3 g\n\n.\n"
    done = _add(tmp_path, "part", "receiver", "own-rx", "--ask", text=lines)
    assert done.exit_code == 0, done.output
    asked = [line for line in done.output.splitlines() if "settles" in line]
    assert "supply.draw" in asked[0] and "has no unit" in done.output
    entry = _shelf(tmp_path)["own-rx"]
    assert entry["supply"] == {"draw": "80 mA"} and entry["mass"] == "9.3 g"
    text = (tmp_path / _SHELF).read_text("utf-8")
    assert "# Not known yet:" in text and "price:" in text.partition("# Not known yet:")[2]


def _asked(key: str, *checks: str) -> Asked:
    return Asked((key,), key, "", Settled(frozenset(checks)))


def test_what_settles_nothing_without_an_answer_that_is_not_known_is_not_asked() -> None:
    left = [_asked("kv", "a", "b", "c"), _asked("cells", "a", "b"), _asked("shaft", "d")]
    asking = Asking("motor", {}, "", left)
    first = asking.following()
    assert first is not None and first.key == "kv"
    asking.does_not_know(first)
    second = asking.following()
    assert second is not None and second.key == "shaft"
    assert asking.following() is None


def _given(folder: Path, **fields: object) -> Path:
    file = folder / "part.yaml"
    tree = {"motor-x": {"kind": "motor", "name": "Given motor", **fields}}
    file.write_text(yaml.safe_dump(tree), "utf-8")
    return file


def test_a_given_part_is_anothers_and_one_that_differs_is_asked(tmp_path: Path) -> None:
    mass = {"measured": "9.1 g"}
    file = _given(tmp_path, mass=mass, surprise="no key of a motor")
    assert _add(tmp_path, "part", "--from", str(file)).exit_code == 0
    assert "surprise" not in _shelf(tmp_path)["motor-x"]
    assert _shelf(tmp_path)["motor-x"]["mass"] == {**mass, "measured_by": "the giver"}
    again = _add(tmp_path, "part", "--from", str(file))
    assert again.exit_code == 0 and "as it was given" in again.output
    other = _given(tmp_path, mass="9.9 g")
    before = (tmp_path / _SHELF).read_bytes()
    done = _add(tmp_path, "part", "--from", str(other))
    assert done.exit_code == 2 and "yours" in done.output and "9.9 g" in done.output
    assert (tmp_path / _SHELF).read_bytes() == before
    assert _add(tmp_path, "part", "--from", str(other), "--rename").exit_code == 0
    assert set(_shelf(tmp_path)) == {"motor-x", "motor-x-given"}
    assert _add(tmp_path, "part", "--from", str(other), "--theirs").exit_code == 0
    assert _shelf(tmp_path)["motor-x"]["mass"] == "9.9 g"


def test_a_given_part_that_breaks_a_build_is_not_taken(tmp_path: Path) -> None:
    """A wire of one's own leads to a contact that the given board has not got."""
    shelf = {
        "board": {"kind": "flight-controller", "name": "b", "pads": {"5V": {"role": "supply"}}}
    }
    cap = {"kind": "capacitor", "name": "c", "pads": {"PLUS": {"role": "draws"}}}
    build = {
        "title": "t",
        "parts": {"board": {"use": "board"}, "cap": {"use": "cap"}},
        "wires": [{"from": "cap.PLUS", "to": "board.5V"}],
    }
    for name, tree in (("shelf/a", shelf | {"cap": cap}), ("own/build", build)):
        file = tmp_path / f"builds/{name}.yaml"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(yaml.safe_dump(tree), "utf-8")
    before = (tmp_path / "builds/shelf/a.yaml").read_bytes()
    given = tmp_path / "part.yaml"
    theirs = {
        "board": {"kind": "flight-controller", "name": "b", "pads": {"9V": {"role": "supply"}}}
    }
    given.write_text(yaml.safe_dump(theirs), "utf-8")
    done = _add(tmp_path, "part", "--from", str(given), "--theirs")
    assert done.exit_code == 1 and "nothing was written" in done.output and "5V" in done.output
    assert (tmp_path / "builds/shelf/a.yaml").read_bytes() == before


@pytest.mark.parametrize(
    "content",
    [
        b"\xff\xfe",
        b"a: [",
        b"",
        b"- a",
        b"x: {kind: motor, name: a}\ny: {kind: motor, name: b}\n",
        b"x: {kind: spaceship, name: a}\n",
        b"../x: {kind: motor, name: a}\n",
        b"aux: {kind: motor, name: a}\n",
        b"x: {kind: motor, name: a, mass: heavy}\n",
        b"x: {kind: motor, name: a, note: operator number is A1234567}\n",
        b"x: &a {kind: motor, name: *a}\n",
        b"x: " + b"[" * 5000,
        b"x: {kind: motor, name: a}\n" + b"#" * 300_000,
    ],
    ids=range(13),
)
def test_a_hostile_part_is_one_sentence_and_nothing_is_written(
    content: bytes, tmp_path: Path
) -> None:
    file = tmp_path / "part.yaml"
    file.write_bytes(content)
    done = _add(tmp_path, "part", "--from", str(file))
    assert done.exit_code in (1, 2), done.output
    assert done.output.count("benchleaf: ") == 1 and "Traceback" not in done.output
    assert not (tmp_path / "builds").exists()
