"""A stranger's names, as keys of every mapping and wherever else a name is given: over a thousand
cases.

None of them leads out of the site, takes the place of another page, or ends in a traceback; each
that cannot be used is said once, at its place. `builder/model/values/names.py` is the gate,
`builder/publish/plain_files.py` the second one.
"""

import hashlib
import json
import os
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner

from builder.cli.main import cli
from builder.load.files import build_names
from builder.model.read.workspace import Workspace
from builder.model.values.names import (
    BUILD,
    PACK,
    PART,
    PICTURE,
    QUESTION,
    SHELF,
    STEP,
    Naming,
    name_mistake,
    picture_mistake,
)
from builder.publish.plain_files import is_address
from tests.hostile.in_memory import said
from tests.hostile.names import (
    FINE_IN_KEYS,
    HOSTILE,
    NAMES,
    all_mappings,
    places,
    sources,
    with_key,
)

pytestmark = pytest.mark.slow  # takes long

GATED = ("Shelf", "BuildSource.parts", "BuildSource.packs")
NAMES_A_FIGURE = "Change.was"  # whose keys are names of figures that there are
TREES: dict[str, Any] = {
    path: yaml.safe_load(content)
    for path, content in sources().files().items()
    if path.endswith(".yaml")
}
PLACES = places(TREES)


def _texts(changed: str = "", tree: Any = None) -> dict[str, str]:
    trees = TREES | ({changed: tree} if changed else {})
    return {
        f.removeprefix("builds/"): yaml.safe_dump(t, sort_keys=False, width=200)
        for f, t in trees.items()
    }


def _snapshot(folder: Path) -> str:
    """All that lies in a folder, links as links."""
    digest = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        content = b"folder"
        if path.is_symlink():
            content = os.fsencode(path.readlink())
        elif path.is_file():
            content = path.read_bytes()
        digest.update(
            f"{path.relative_to(folder)}\0{path.lstat().st_mode}\0".encode() + content + b"\0"
        )
    return digest.hexdigest()


def _run(*words: str) -> tuple[int, str]:
    done = CliRunner().invoke(cli, words)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    assert "Traceback" not in done.output and "inside Benchleaf" not in done.output
    return done.exit_code, done.output


def _publish(workspace: Path) -> tuple[int, str]:
    return _run("publish", "--no-pdf", "--draft", "--workers", "1", "--workspace", str(workspace))


def test_the_corpus_is_large_and_every_mapping_of_the_source_is_written() -> None:
    assert len(NAMES) >= 80 and len(HOSTILE) >= 11
    mappings = all_mappings()
    assert set(mappings) <= set(PLACES), (
        "write the new mapping in tests/hostile/names.py, so that it is tried"
    )
    assert len(NAMES) * len(PLACES) >= 800
    assert not said(_texts()).findings


@pytest.mark.parametrize(
    "naming", [BUILD, SHELF, PART, PACK, STEP, QUESTION, PICTURE], ids=lambda n: n.what
)
def test_no_hostile_name_passes_the_gate(naming: Naming) -> None:
    fine = (
        (*FINE_IN_KEYS, "aux.txt", "con", "NUL", "com1", "Prn.a.b", "lpt9")
        if not naming.file
        else FINE_IN_KEYS
    )
    passed = [name for name in NAMES if name_mistake(name, naming) is None]
    assert set(passed) <= (set(fine) if naming.letters == "any" else set())


@pytest.mark.parametrize("name", ["frame", "motor-2207", "Prop_5x4.3", "a", "0", "x" * 80])
def test_plain_names_pass(name: str) -> None:
    assert name_mistake(name, SHELF) is None and name_mistake(name, PACK) is None
    assert name_mistake(name, STEP) is None and picture_mistake(f"{name[:70]}.svg") is None
    assert picture_mistake(f"close/{name[:70]}.svg") is None


def test_letters_of_any_language_name_parts_but_no_address() -> None:
    for name in ("Träger", "мотор", "機体", "ต้น"):
        assert name_mistake(name, PART) is None and name_mistake(name, SHELF) is not None


def _mistakes(model: Workspace, name: str) -> list[tuple[str, str]]:
    """Code and file of each mistake that stands at a key of this name."""
    return [
        (f.code, f.where.file)
        for f in model.findings
        if f.where is not None and f.where.path and f.where.path[-1] in (name, "?") and f.where.file
    ]


@pytest.mark.parametrize("place", GATED)
def test_a_hostile_key_is_said_once_at_its_place(place: str) -> None:
    where = PLACES[place]
    for name in NAMES:
        files = _texts(where.file, with_key(TREES[where.file], where.path, (name,)))
        found = _mistakes(said(files), name)
        if name in FINE_IN_KEYS and place != "Shelf":
            assert found == []
        elif place == "BuildSource.parts" and name_mistake(name, PART) is None:
            assert (
                name_mistake(name, SHELF) is not None
            )  # a device of Windows is a part's name like any other
        elif place == "BuildSource.packs" and name_mistake(name, PACK) is None:
            assert name_mistake(name, SHELF) is not None
        else:
            assert len(found) == 1, (name, found)
            assert found[0][0] in ("data/bad-name", "data/not-text") and where.file.endswith(
                found[0][1]
            )


def test_a_hostile_name_of_a_figure_is_said_once_and_nothing_is_published(tmp_path: Path) -> None:
    where = PLACES[NAMES_A_FIGURE]
    fit = tuple(n for n in NAMES if n and n.isprintable() and len(n) <= 200)
    home = tmp_path / "workspace"
    for file, text in _texts(where.file, with_key(TREES[where.file], where.path, fit)).items():
        (home / "builds" / file).parent.mkdir(parents=True, exist_ok=True)
        (home / "builds" / file).write_text(text, "utf-8")
    done, output = _publish(home)
    assert done == 1
    assert output.count("is no name of a figure") == len(fit)
    assert "wren: not published" in output and not (home / "site" / "wren").exists()
    assert [p.name for p in tmp_path.iterdir()] == ["workspace"]


@pytest.mark.parametrize("place", sorted(set(PLACES) - {*GATED, NAMES_A_FIGURE}))
def test_free_keys_are_published_without_harm(tmp_path: Path, place: str) -> None:
    """Prints of pads and the like may be anything: all of them in one workspace, published twice."""
    where = PLACES[place]
    fit = tuple(n for n in NAMES if n and n.isprintable() and len(n) <= 200)
    files = _texts(where.file, with_key(TREES[where.file], where.path, fit))
    if place == "Electrical.pads":
        files |= _wired(fit)
    home = tmp_path / "a" / "b" / "workspace"
    for file, text in files.items():
        (home / "builds" / file).parent.mkdir(parents=True, exist_ok=True)
        (home / "builds" / file).write_text(text, "utf-8")
    (tmp_path / "canary").mkdir()
    (tmp_path / "canary" / "kept.html").write_text("kept")
    (home / "canary.html").write_text("kept")
    first, output = _publish(home)
    assert first == 0, output
    again, _ = _publish(home)
    assert again == first, output
    assert sorted(p.name for p in tmp_path.iterdir()) == ["a", "canary"]
    assert {p.name for p in home.iterdir() if not p.name.startswith(".site-")} <= {
        "builds",
        "site",
        "canary.html",
    }
    if (home / "site").is_dir():
        files_there = [
            p.relative_to(home / "site").as_posix()
            for p in (home / "site").rglob("*")
            if p.is_file()
        ]
        assert all(map(is_address, files_there))
        for page in (home / "site").rglob("*.html"):
            _ids_are_sound(page)


def _wired(prints: tuple[str, ...]) -> dict[str, str]:
    """A wire to each of these prints of the board, so that every one has its row, its box to tick
    and its step.
    """
    prints = (
        *(p for p in prints if p.strip() == p),
        "A.1",
        "A-1",
        "A_1",
        "BAT+",
        "BATplus",
        "A 1",
        "A-1-2",
    )
    shelf = with_key(TREES["builds/shelf/bench.yaml"], ("board-wren", "pads"), prints)
    shelf = with_key(shelf, ("camera-wren", "pads"), prints)
    wires = [{"from": f"board.{p}", "to": f"camera.{p}"} for p in prints]
    build = TREES["builds/wren/build.yaml"] | {"wires": [*wires, dict(wires[-4])]}
    return _texts("builds/shelf/bench.yaml", shelf) | {
        "wren/build.yaml": yaml.safe_dump(build, sort_keys=False, width=200)
    }


def _ids_are_sound(page: Path) -> None:
    """Each id once, without blanks (HTML standard, 3.2.6)."""
    ids = re.findall(r'<[a-zA-Z][^<>]*? id=(?:"([^"]*)"|([^\s>"]+))', page.read_text("utf-8"))
    plain = [a or b for a, b in ids]
    assert not [i for i in plain if re.search(r"\s", i)], page
    assert len(set(plain)) == len(plain), (page, sorted(i for i in plain if plain.count(i) > 1)[:4])


@pytest.mark.parametrize("list_", ["steps", "questions"])
def test_a_hostile_id_is_said_once_at_its_place(list_: str) -> None:
    file = "builds/wren/build.yaml"
    naming = STEP if list_ == "steps" else QUESTION
    entry = {"do": "fit", "text": "Glue."} if list_ == "steps" else {"ask": "A?", "answer": "B."}
    for given in NAMES:
        model = said(_texts(file, TREES[file] | {list_: [entry | {"id": given}]}))
        name = given.strip()  # as every text is read
        found = [f for f in model.findings if f.where is not None and f.where.path[:1] == (list_,)]
        if name_mistake(name, naming) is None or (list_ == "questions" and not name):
            assert found == [], name
        else:
            assert [f.where.path for f in found if f.where] == [(list_, 0, "id")], (name, found)


def test_a_hostile_picture_is_said_once_at_its_place() -> None:
    file = "builds/wren/build.yaml"
    for name in NAMES:
        for picture in (f"{name}.svg", f"{name}/a.svg"):
            if picture_mistake(picture.strip()) is None:
                continue
            model = said(_texts(file, TREES[file] | {"hero": {"file": picture, "alt": "Words"}}))
            assert [f.where.path for f in model.findings if f.where] == [("hero", "file")], (
                picture,
                model.findings,
            )
    for ours in (
        "card.png",
        "CARD.png",
        "work/a.svg",
        "Numbers/a.svg",
        "con.svg",
        "bench-sheet.pdf/a.svg",
    ):
        assert picture_mistake(ours) is not None, ours


def test_a_part_of_the_shelf_never_leads_out_of_the_site(tmp_path: Path) -> None:
    """Where a build uses it: it wrote x/y/index.html two folders above the site, over what lay
    there.
    """
    home = tmp_path / "a" / "b" / "workspace"
    for name in ("../../../x/y", "../../x", "..", ".", "", "/x", "a/../b"):
        made = sources()
        made.shelf["air.yaml"][name] = made.shelf["air.yaml"].pop("frame-wren")
        made.builds["wren"]["parts"]["frame"]["use"] = name
        made.builds["robin"]["parts"].pop("frame")
        made.write(home)
        before = sorted(tmp_path.iterdir()), sorted((tmp_path / "a").iterdir())
        status, output = _publish(home)
        assert status == 1 and output.count("[data/bad-name]") == 1, output
        assert (sorted(tmp_path.iterdir()), sorted((tmp_path / "a").iterdir())) == before
        assert (home / "site" / "robin" / "index.html").is_file()
        assert _publish(home)[0] == 1 and not (home / "x").exists()
    sources().write(home)
    assert _publish(home)[0] == 0


def test_a_build_folder_with_a_hostile_name_stops_no_other(tmp_path: Path) -> None:
    made = sources()
    made.write(tmp_path)
    text = (tmp_path / "builds" / "robin" / "build.yaml").read_text()
    folders = [
        n
        for n in NAMES
        if n.strip(". ") and "/" not in n and "\0" not in n and len(os.fsencode(n)) < 250
    ]
    folders = [n for n in folders if not n.startswith(".")] + [
        "rules",
        "fields",
        "schema",
        "404",
        "Wren",
        "index",
    ]
    for name in folders:
        (tmp_path / "builds" / name).mkdir()
        (tmp_path / "builds" / name / "build.yaml").write_text(text)
    status, output = _publish(tmp_path)
    assert status == 1 and "2 builds published" in output
    assert output.count("[data/bad-name]") == len(folders) >= 45
    assert all(p.name.isascii() for p in (tmp_path / "site").iterdir())
    assert b"<h1>Checks" in (tmp_path / "site" / "rules" / "index.html").read_bytes()
    words = f"benchleaf check --workspace {tmp_path} "
    asked = {"_BENCHLEAF_COMPLETE": "bash_complete", "COMP_WORDS": words, "COMP_CWORD": "4"}
    done = CliRunner().invoke(cli, [], env=asked, prog_name="benchleaf")
    assert done.output.split() == ["plain,robin", "plain,wren"] and len(build_names(tmp_path)) > 45


def test_start_takes_no_hostile_name_and_writes_nothing(tmp_path: Path) -> None:
    sources().write(tmp_path / "workspace")
    before = _snapshot(tmp_path)
    for name in (*NAMES, "rules", "site"):
        assert _run("start", "--workspace", str(tmp_path / "workspace"), "--", name)[0] == 2, name
        if name:
            like = _run(
                "start", "--workspace", str(tmp_path / "workspace"), "--like", name, "--", "new-one"
            )
            assert like[0] == 2, name
    assert _snapshot(tmp_path) == before


def test_hostile_names_of_builds_to_compare_are_no_addresses(tmp_path: Path) -> None:
    made = sources()
    made.site["compare"] = [["wren", n] for n in NAMES if n and n.isprintable() and n.strip() == n]
    made.write(tmp_path)
    first, output = _publish(tmp_path)
    assert first in (0, 1) and _publish(tmp_path)[0] == first, output
    assert sorted(p.name for p in tmp_path.iterdir() if not p.name.startswith(".site-")) == [
        "builds",
        "site",
    ]


def test_a_manifest_may_name_no_picture_of_another_folder(tmp_path: Path) -> None:
    made = sources()
    made.pictures["wren"] = 1
    made.builds["wren"]["hero"] = {"file": "top.svg", "alt": "Words"}
    made.write(tmp_path)
    assert _publish(tmp_path)[0] == 0
    manifest = tmp_path / "site" / ".benchleaf.json"
    text = manifest.read_text()
    assert json.loads(text) and '"top.svg"' in text
    manifest.write_text(text.replace('["wren","top.svg"', '["wren","index.html/top.svg"'))
    made.builds["robin"]["title"] = "Again"
    made.write(tmp_path)
    assert _publish(tmp_path)[0] == 0
    assert (tmp_path / "site" / "wren" / "index.html").is_file()
