"""`pip install` alone gives a working command with the templates in it, in any folder, away from
the checkout.
"""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def built(kind: str, source: Path, folder: Path) -> Path:
    """Build a wheel or an sdist from a source tree without a network, with the back end of this
    environment.
    """
    code = (
        f"import sys; from hatchling.build import build_{kind} as build; print(build(sys.argv[1]))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(folder)],
        cwd=source,
        check=True,
        capture_output=True,
        encoding="utf-8",
    )
    return folder / done.stdout.split()[-1]


def files_below(folder: Path) -> set[str]:
    """Return the files of a folder that git keeps, relative to it."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "."],
        cwd=folder,
        check=True,
        capture_output=True,
        encoding="utf-8",
    )
    return {name for name in listed.stdout.split("\0") if name and (folder / name).exists()}


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built("wheel", ROOT, tmp_path_factory.mktemp("wheel"))


@pytest.fixture(scope="module")
def command(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Install the wheel into an empty environment, which borrows the libraries of this one."""
    venv = tmp_path_factory.mktemp("empty") / "venv"
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(venv)], check=True)
    pip = [
        sys.executable,
        "-m",
        "pip",
        "--disable-pip-version-check",
        "--python",
        str(venv / "bin" / "python"),
    ]
    subprocess.run([*pip, "install", "--quiet", "--no-deps", "--no-index", str(wheel)], check=True)
    import click

    borrowed = Path(click.__file__).parents[1]
    own = next(venv.glob("lib/python*/site-packages"))
    # A path in a .pth file comes after the environment's own packages, and the .pth files there are
    # not read, so the editable install of the checkout does not leak in.
    (own / "borrowed.pth").write_text(f"{borrowed}\n", "utf-8")
    return venv / "bin" / "benchleaf"


def run(argv: list[str], folder: Path) -> subprocess.CompletedProcess[str]:
    environment = {
        name: value for name, value in os.environ.items() if not name.startswith("PYTHON")
    }
    return subprocess.run(
        argv, cwd=folder, env=environment, check=False, capture_output=True, encoding="utf-8"
    )


def test_the_wheel_holds_every_template_and_every_module_and_nothing_else(wheel: Path) -> None:
    names = {name for name in zipfile.ZipFile(wheel).namelist() if ".dist-info/" not in name}
    wanted = {f"builder/{name}" for name in files_below(ROOT / "builder")}
    wanted |= {f"builder/templates/{name}" for name in files_below(ROOT / "templates")}
    assert wanted <= names
    # Files that are not yet in git are packed too; what must not be there is another top level.
    assert {name.split("/")[0] for name in names} == {"builder"}
    assert not [name for name in names if "__pycache__" in name or name.endswith(".pyc")]


def test_the_wheel_is_the_same_when_it_comes_from_the_sdist(wheel: Path, tmp_path: Path) -> None:
    sdist = built("sdist", ROOT, tmp_path)
    # Not by Python: its safe way to unpack came only with 3.11.4, and the plain way warns later on.
    subprocess.run(["tar", "-xzf", str(sdist), "-C", str(tmp_path)], check=True)
    again = built("wheel", tmp_path / sdist.name.removesuffix(".tar.gz"), tmp_path)
    assert zipfile.ZipFile(again).namelist() == zipfile.ZipFile(wheel).namelist()


def test_the_installed_package_lies_away_from_the_checkout(command: Path, tmp_path: Path) -> None:
    code = "import builder; print(builder.__file__)"
    done = run([str(command.with_name("python")), "-c", code], tmp_path)
    assert done.returncode == 0, done.stderr
    assert Path(done.stdout.strip()).is_relative_to(command.parents[1])


def test_the_command_answers_in_an_empty_folder(command: Path, tmp_path: Path) -> None:
    done = run([str(command), "--help"], tmp_path)
    assert done.returncode == 0, done.stderr
    assert "publish" in done.stdout


def test_in_an_empty_folder_a_build_is_started_and_published(command: Path, tmp_path: Path) -> None:
    started = run([str(command), "start", "my-build"], tmp_path)
    assert started.returncode == 0, started.stderr
    published = run([str(command), "publish", "--no-pdf"], tmp_path)
    assert published.returncode == 0
    assert [line for line in published.stderr.splitlines() if "not printed" not in line] == []
    assert "1 build published, " in published.stdout
    page = (tmp_path / "site" / "my-build" / "index.html").read_text("utf-8")
    assert "<title>My build" in page
    assert (tmp_path / "site" / "assets" / "sheet.css").is_file()


def test_templates_of_a_workspace_take_the_place_of_single_ones(
    command: Path, tmp_path: Path
) -> None:
    run([str(command), "start", "my-build", "--size", "2-inch"], tmp_path)
    own = tmp_path / "templates"
    (own / "static").mkdir(parents=True)
    (own / "rules.html").write_text(
        "<!doctype html><title>{{ page.title }} of ours</title>\n", "utf-8"
    )
    (own / "static" / "mark.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg"/>', "utf-8")
    published = run([str(command), "publish", "--no-pdf"], tmp_path)
    assert published.returncode == 0, published.stderr
    site = tmp_path / "site"
    assert (site / "rules" / "index.html").read_text("utf-8").endswith(" of ours</title>")
    assert (site / "assets" / "mark.svg").is_file()
    assert "of ours" not in (site / "my-build" / "index.html").read_text("utf-8")
    assert (site / "assets" / "sheet.css").is_file()


def test_the_wheel_brings_every_starter_and_the_shelf_that_they_use(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    assert {
        f"builder/starters/shelf/{name}" for name in files_below(ROOT / "builds" / "shelf")
    } <= names
    assert {
        f"builder/starters/{name}" for name in files_below(ROOT / "builder" / "starters")
    } <= names
