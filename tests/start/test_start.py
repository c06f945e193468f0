"""`benchleaf start`: what it writes passes `check`, claims nothing untrue, and touches nothing that
was there.
"""

from pathlib import Path
from shutil import copytree

import pytest
import yaml
from click.testing import CliRunner, Result

from builder.cli.main import cli
from builder.load.starters import SIZES
from builder.pipeline.check import check_workspace
from tests.workspace_edits import ROOT

pytestmark = pytest.mark.slow  # takes long


def run(folder: Path, *words: str) -> Result:
    return CliRunner().invoke(cli, [*words, "--workspace", str(folder)])


def files_of(folder: Path) -> dict[str, bytes]:
    """All files but those with a dot, which are a lock."""
    return {
        str(p.relative_to(folder)): p.read_bytes() for p in folder.rglob("[!.]*") if p.is_file()
    }


@pytest.mark.parametrize("size", SIZES)
def test_a_build_of_each_size_passes_check_in_an_empty_folder(tmp_path: Path, size: str) -> None:
    done = run(tmp_path, "start", "my-build", "--size", size)
    assert done.exit_code == 0, done.output
    found = check_workspace(tmp_path)
    assert found.stops == ()
    assert len(found.findings) <= 3  # remarks, such as a mass over the limit of a class
    sheet = found.sheets["my-build"]
    assert sheet.build.source.title == "My build"
    assert sheet.build.source.status == "planned"
    assert found.workspace.site.invented


def test_a_size_has_the_names_of_the_trade(tmp_path: Path) -> None:
    """A propeller of 40 mm has 1.57 inches: sold as 1.6 and as 2 (common practice, no source)."""
    for name, size in (("one", "1.6-inch"), ("two", "2-inch")):
        assert run(tmp_path / name, "start", "mine", "--size", size).exit_code == 0
    first, second = (files_of(tmp_path / name) for name in ("one", "two"))
    assert first == second


def test_all_sizes_stand_in_one_workspace_beside_a_shelf_that_was_there(tmp_path: Path) -> None:
    for size in SIZES:
        before = files_of(tmp_path)
        assert run(tmp_path, "start", f"b-{size}", "--size", size).exit_code == 0
        after = files_of(tmp_path)
        assert {f: c for f, c in after.items() if f in before} == before
        assert set(after) - set(before) >= {f"builds/b-{size}/build.yaml"}
    assert check_workspace(tmp_path).stops == ()


@pytest.mark.parametrize("size", SIZES)
def test_a_starter_explains_each_part_of_the_format_and_says_that_it_is_invented(
    tmp_path: Path, size: str
) -> None:
    run(tmp_path, "start", "my-build", "--size", size)
    lines = (tmp_path / "builds" / "my-build" / "build.yaml").read_text("utf-8").splitlines()
    assert "invented" in " ".join(lines[:3])
    for key in ("parts", "packs", "extra_mass", "wires", "plugs", "screws", "steps", "setup"):
        assert lines[lines.index(f"{key}:") - 1].startswith("# "), key
    for file in (tmp_path / "builds" / "shelf").iterdir():
        assert file.read_text("utf-8").startswith("# Invented"), file.name


def _keys(tree: object) -> set[str]:
    """Every key in a tree, at any depth."""
    if isinstance(tree, dict):
        return set(tree).union(*(_keys(v) for v in tree.values()))
    return set().union(*(_keys(v) for v in tree)) if isinstance(tree, list) else set()


@pytest.mark.parametrize("size", SIZES)
def test_nothing_that_is_made_up_says_that_it_was_measured(tmp_path: Path, size: str) -> None:
    run(tmp_path, "start", "my-build", "--size", size)
    demo = {
        k: v
        for folder in ("builds/shelf", "builder/starters/more")
        for f in (ROOT / folder).iterdir()
        for k, v in yaml.safe_load(f.read_text()).items()
    }
    for file in (tmp_path / "builds" / "shelf").iterdir():
        text = file.read_text("utf-8")
        shelf = yaml.safe_load(text)
        assert not _keys(shelf) & {
            "measured",
            "weighed_together",
            "scale",
            "cycles",
            "bought",
        }, file.name
        assert "wardens" not in text
        assert "measured: " in text.splitlines()[1]  # and the head says where one's own scale goes
        for name, entry in shelf.items():
            mass, before = entry.get("mass"), demo[name].get("mass")
            if isinstance(before, dict) and "measured" in before:
                kept = (
                    {"maker": before["maker"]}
                    if "maker" in before
                    else {"estimate": before["measured"]}
                )
                assert mass == kept, name
            rest = {"mass", "resistance", "bench", "maker", "bought", "cycles", "invented"}
            assert {k: v for k, v in entry.items() if k not in rest} == {
                k: v for k, v in demo[name].items() if k not in rest
            }


@pytest.mark.parametrize("size", SIZES)
def test_its_own_shelf_holds_nothing_that_is_said_to_be_unused(tmp_path: Path, size: str) -> None:
    run(tmp_path, "start", "my-build", "--size", size)
    done = run(tmp_path, "check")
    assert done.exit_code == 0
    assert "unused-on-shelf" not in done.output


def uncommented(text: str) -> str:
    """The text with the block at its end that is commented out taken in."""
    head, tail = text.split("# What comes later", 1)
    return head + "\n".join(line.removeprefix("# ") for line in tail.split("\n")[1:])


@pytest.mark.parametrize("size", SIZES)
def test_what_a_starter_shows_for_later_is_of_the_right_form(tmp_path: Path, size: str) -> None:
    """Taken in as it stands, each line is read; only the made-up code of an accepted fault is
    unknown.
    """
    run(tmp_path, "start", "my-build", "--size", size)
    file = tmp_path / "builds" / "my-build" / "build.yaml"
    file.write_text(
        uncommented(file.read_text("utf-8")).replace("family/code", "pack/discharge-limit"), "utf-8"
    )
    found = check_workspace(tmp_path)
    assert found.workspace.findings == ()
    source = found.workspace.builds["my-build"].source
    assert len(source.weighed) == 2
    assert (
        len(source.flights)
        == len(source.changes)
        == len(source.questions)
        == len(source.accept)
        == 1
    )


@pytest.fixture(scope="module")
def demo_copy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo")
    copytree(ROOT / "builds", folder / "builds")
    return folder


@pytest.mark.parametrize(
    "base", ["dipper", "dipper-light", "redshank", "curlew", "pipit", "turnstone"]
)
def test_a_copy_passes_check_and_claims_nothing_of_the_other_aircraft(
    demo_copy: Path, base: str
) -> None:
    name = f"after-{base}"
    before = files_of(demo_copy)
    done = run(demo_copy, "start", name, "--like", base)
    assert done.exit_code == 0, done.output
    after = files_of(demo_copy)
    assert set(after) - set(before) == {f"builds/{name}/build.yaml"}
    assert {f: c for f, c in after.items() if f in before} == before
    found = check_workspace(demo_copy, (name,))
    source = found.workspace.builds[name].source
    accepted = found.workspace.builds[base].source.accept
    assert {f.code for f in found.stops} <= {a.rule for a in accepted}, (
        "only what was accepted before"
    )
    assert source.title == f"After {base.replace('-', ' ')}"
    assert source.status == "planned"
    for key in ("weighed", "flights", "incidents", "maintenance", "as_built", "changes", "photos"):
        assert getattr(source, key) == (), key
    assert source.hero is None
    own = yaml.safe_load(after[f"builds/{name}/build.yaml"])
    assert not [s for s in own.get("steps", ()) if "photo" in s or "alt" in s]
    assert "tested" not in own.get("setup", {}).get("fail_safe", {})
    assert not source.accept
    assert not [u for u in source.parts.values() if u.each_weighed or u.owned]
    copy = found.workspace.builds[name]
    assert copy.base is None and copy.log_of is None, "another aircraft, of another pilot"


def test_a_copy_keeps_comments_and_layout(demo_copy: Path) -> None:
    run(demo_copy, "start", "second", "--like", "dipper")
    old = (demo_copy / "builds" / "dipper" / "build.yaml").read_text("utf-8").splitlines()
    new = (demo_copy / "builds" / "second" / "build.yaml").read_text("utf-8").splitlines()
    kept = (
        old[old.index("parts:") : old.index("weighed:")]
        + old[old.index("wires:") : old.index("photos:")]
    )
    kept = [line for line in kept if "each_weighed" not in line and "owned" not in line]
    assert sum("# " in line for line in kept) >= 8
    assert not [line for line in kept if line not in new]


def test_a_second_start_under_the_same_name_changes_nothing(tmp_path: Path) -> None:
    run(tmp_path, "start", "my-build")
    before = files_of(tmp_path)
    done = run(tmp_path, "start", "my-build", "--size", "5-inch")
    assert done.exit_code == 2
    assert (
        done.output
        == "benchleaf: The build 'my-build' is there already. Choose another name; nothing was"
        " changed.\n"
    )
    assert files_of(tmp_path) == before


@pytest.mark.parametrize(
    "name", ["My Build", "../out", "shelf", "compare", "a/b", "", "-", "x" * 65, "é", "a\n"]
)
def test_a_name_that_cannot_be_one_gives_one_line(tmp_path: Path, name: str) -> None:
    done = CliRunner().invoke(cli, ["start", "--workspace", str(tmp_path), "--", name])
    assert done.exit_code == 2
    assert done.output.count("\n") == 1
    assert "cannot name a build" in done.output
    assert list(tmp_path.iterdir()) == []


def test_a_base_that_is_not_there_is_named_with_what_is(demo_copy: Path) -> None:
    done = run(demo_copy, "start", "third", "--like", "diper")
    assert done.exit_code == 2
    assert "Did you mean 'dipper'?" in done.output


def test_a_base_with_mistakes_is_not_copied(demo_copy: Path, tmp_path: Path) -> None:
    copytree(demo_copy, tmp_path / "w")
    file = tmp_path / "w" / "builds" / "pipit" / "build.yaml"
    file.write_text(
        file.read_text("utf-8").replace("title: Pipit", "title: Pipit\ntitel: x", 1), "utf-8"
    )
    done = run(tmp_path / "w", "start", "third", "--like", "pipit")
    assert done.exit_code == 1
    assert "'titel'" in done.output
    assert "nothing was written" in done.output
    assert not (tmp_path / "w" / "builds" / "third").exists()


def test_where_nothing_can_be_written_nothing_is_left_behind(tmp_path: Path) -> None:
    (tmp_path / "builds").mkdir()
    (tmp_path / "builds" / "shelf").write_text("in the way", "utf-8")
    done = run(tmp_path, "start", "my-build")
    assert done.exit_code == 1
    assert done.output.startswith("benchleaf: Writing the new build failed: ")
    assert "Nothing was changed" in done.output
    assert files_of(tmp_path) == {"builds/shelf": b"in the way"}


def test_a_size_and_a_model_at_once_are_wrong_use(tmp_path: Path) -> None:
    done = CliRunner().invoke(
        cli, ["start", "two", "--like", "one", "--size", "2-inch", "--workspace", str(tmp_path)]
    )
    assert done.exit_code == 2
    assert "give one of them" in done.output
    assert not list(tmp_path.iterdir())
