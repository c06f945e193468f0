"""What a disk may do to a publish: one clear message, the other builds go on, and nothing published
is lost.
"""

import os
import socket
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from shutil import copytree, ignore_patterns, rmtree
from tempfile import TemporaryDirectory

import pytest

from builder.load.files import load
from builder.pipeline.published import Published
from builder.publish.swap import PublishError
from tests.workspace_edits import ROOT

Publish = Callable[[Path], Published]
NOBODY = 65534  # a user that owns nothing


def contents(site: Path) -> dict[str, bytes]:
    return {
        p.relative_to(site).as_posix(): p.read_bytes()
        for p in sorted(site.rglob("*"))
        if p.is_file()
    }


def pipe(path: Path) -> None:
    os.mkfifo(path)


def listening_socket(path: Path) -> None:
    here = Path.cwd()
    os.chdir(path.parent)  # a socket's path may be short only
    try:
        with socket.socket(socket.AF_UNIX) as made:
            made.bind(path.name)
    finally:
        os.chdir(here)


SPOILT: dict[str, tuple[Callable[[Path], object], str]] = {
    "a folder": (lambda p: p.mkdir(), "Is a directory"),
    "a pipe that nobody writes into": (pipe, "no plain file"),
    "a socket": (listening_socket, "cannot be read"),
    "a link that leads nowhere": (lambda p: p.symlink_to("gone.yaml"), "No such file"),
    "a link to itself": (lambda p: p.symlink_to(p.name), "in a circle"),
    "a link to a file outside": (lambda p: p.symlink_to("/etc/hostname"), "leads outside"),
    "a link to an endless device": (lambda p: p.symlink_to("/dev/zero"), "leads outside"),
    "not UTF-8": (lambda p: p.write_bytes(b"title: caf\xe9\n"), "not UTF-8"),
    "zero bytes": (lambda p: p.write_bytes(b"title: a\0b\n"), "not YAML"),
    "too large": (lambda p: p.write_bytes(b"#" * 600_000), "at most 524288 are read"),
}


@pytest.mark.parametrize("how", SPOILT)
def test_a_spoilt_build_file_is_said_and_its_pages_are_kept(
    workspace: Path, publishing: Publish, how: str
) -> None:
    before = contents(workspace / "site" / "pipit")
    file = workspace / "builds" / "pipit" / "build.yaml"
    file.unlink()
    spoil, words = SPOILT[how]
    spoil(file)
    done = publishing(workspace)
    assert done.kept == ("pipit",) and not done.errors
    assert [words in f.message for f in done.findings if f.build == "pipit"] == [True]
    assert done.published == ("curlew",)
    assert contents(workspace / "site" / "pipit") == before


@pytest.mark.parametrize(
    "how", ["a folder", "a pipe that nobody writes into", "a link to a file outside", "not UTF-8"]
)
def test_a_spoilt_shelf_file_keeps_what_needs_it_and_no_link_dies(
    workspace: Path, publishing: Publish, how: str
) -> None:
    before = contents(workspace / "site")
    file = workspace / "builds" / "shelf" / "motors.yaml"
    file.unlink()
    SPOILT[how][0](file)
    done = publishing(workspace)
    assert SPOILT[how][1] in " ".join(
        f.message for f in done.findings if f.where and f.where.file == "shelf/motors.yaml"
    )
    assert done.kept and not done.errors
    assert {p for p in before if p.startswith("parts/motor")} <= set(contents(workspace / "site"))


@pytest.mark.parametrize("how", ["a folder", "not UTF-8", "a link that leads nowhere"])
def test_nothing_is_published_by_settings_that_cannot_be_read(
    workspace: Path, publishing: Publish, how: str
) -> None:
    before = contents(workspace / "site")
    (workspace / "builds" / "site.yaml").unlink()
    SPOILT[how][0](workspace / "builds" / "site.yaml")
    done = publishing(workspace)
    assert len(done.kept) == 2 and not done.published
    assert contents(workspace / "site") == before


def test_a_mistake_in_the_settings_publishes_nothing(workspace: Path, publishing: Publish) -> None:
    before = contents(workspace / "site")
    settings = workspace / "builds" / "site.yaml"
    settings.write_text(settings.read_text() + "tittle: x\n")
    done = publishing(workspace)
    assert not done.published and [f.code for f in done.findings] == ["data/unknown-key"]
    assert contents(workspace / "site") == before


def test_a_workspace_without_builds_leaves_the_site_alone(
    workspace: Path, publishing: Publish
) -> None:
    before = contents(workspace / "site")
    (workspace / "builds").rename(workspace / "elsewhere")
    assert [f.code for f in publishing(workspace).findings] == ["data/no-workspace"]
    assert contents(workspace / "site") == before


def test_a_file_that_vanishes_between_listing_and_reading(
    workspace: Path, publishing: Publish, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = contents(workspace / "site" / "pipit")
    real = os.open

    def vanishing(path: str, flags: int, mode: int = 0o777, *, dir_fd: int | None = None) -> int:
        if str(path).endswith("pipit/build.yaml"):
            Path(path).unlink(missing_ok=True)
        return real(path, flags, mode, dir_fd=dir_fd)

    monkeypatch.setattr(os, "open", vanishing)
    done = publishing(workspace)
    assert done.kept == ("pipit",)
    assert [f.message for f in done.findings if f.build == "pipit"] == [
        "This file cannot be read: No such file or directory."
    ]
    assert contents(workspace / "site" / "pipit") == before


@pytest.mark.parametrize(
    "how", ["a folder", "a pipe that nobody writes into", "a link to a file outside"]
)
def test_a_spoilt_picture_keeps_its_build(workspace: Path, publishing: Publish, how: str) -> None:
    before = contents(workspace / "site" / "pipit")
    picture = workspace / "builds" / "pipit" / "top.svg"
    picture.unlink()
    SPOILT[how][0](picture)
    done = publishing(workspace)
    assert done.kept == ("pipit",)
    assert {f.code for f in done.findings if f.build == "pipit" and f.severity == "mistake"} == {
        "data/picture"
    }
    assert contents(workspace / "site" / "pipit") == before


def test_ten_thousand_files_in_a_build_folder(workspace: Path, publishing: Publish) -> None:
    for i in range(10_000):
        (workspace / "builds" / "pipit" / f"note-{i}.txt").touch()
    done = publishing(workspace)
    assert len(done.published) == 2 and not done.errors
    assert not any("note-" in p for p in contents(workspace / "site"))


def test_a_clock_that_runs_backwards_changes_nothing(workspace: Path, publishing: Publish) -> None:
    before = contents(workspace / "site")
    for path in (workspace / "builds").rglob("*"):
        os.utime(path, (0, 0))  # 1970
    done = publishing(workspace)
    assert done.written == 0 and contents(workspace / "site") == before
    for path in (workspace / "site").rglob("*"):
        os.utime(path, (4e9, 4e9))  # 2096
    file = workspace / "builds" / "pipit" / "build.yaml"
    file.write_text(file.read_text().replace("title: ", "title: New ", 1))
    os.utime(file, (1, 1))
    assert "pipit" in publishing(workspace).published
    assert b"New " in (workspace / "site" / "pipit" / "index.html").read_bytes()


@pytest.mark.parametrize("name", ["site", "site/curlew/leak.html", "site/.leak"])
def test_links_in_the_site_lead_nowhere(
    workspace: Path, publishing: Publish, tmp_path_factory: pytest.TempPathFactory, name: str
) -> None:
    outside = tmp_path_factory.mktemp("outside")
    (outside / "secret").write_text("canary")
    link = workspace / name
    if name == "site":
        rmtree(link)
    link.parent.mkdir(parents=True, exist_ok=True)
    link.symlink_to(outside if name == "site" else outside / "secret")
    with pytest.raises(PublishError):
        publishing(workspace)
    assert [p.name for p in outside.iterdir()] == ["secret"]


def test_a_manifest_that_leads_out_of_the_site_is_not_believed(
    workspace: Path, publishing: Publish
) -> None:
    (workspace / "secret").write_text("canary")
    manifest = workspace / "site" / ".benchleaf.json"
    text = manifest.read_text().replace(
        '"curlew/parts.csv":', '"../secret":["x",6],"curlew/parts.csv":'
    )
    manifest.write_text(text)
    before = contents(workspace / "site")
    done = publishing(workspace)
    assert "is not as it was written" in done.remarks[0] and not done.errors
    assert (workspace / "secret").read_text() == "canary"
    assert contents(workspace / "site") != before, "the manifest is ours again"
    assert not publishing(workspace).remarks


def test_a_workspace_that_may_not_be_looked_at_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def denied(self: Path) -> bool:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "is_dir", denied)
    assert [f.message for f in load(tmp_path).findings] == [
        "This folder cannot be read: Permission denied."
    ]


@pytest.fixture
def open_to_all(once: Path) -> Iterator[Path]:
    """A copy of the published workspace where every user may go. The folder that pytest gives is
    closed again whenever another run of it starts.
    """
    with TemporaryDirectory() as made:
        yield Path(copytree(once, made, dirs_exist_ok=True))


@pytest.fixture
def code_open_to_all() -> Iterator[Path]:
    """A copy of the code where every user may go: a checkout may lie in a folder of root's own."""
    with TemporaryDirectory() as made:
        Path(made).chmod(0o755)
        for folder in ("builder", "templates"):
            left_out = ignore_patterns("__pycache__")
            copytree(ROOT / folder, Path(made) / folder, ignore=left_out)
        yield Path(made)


def test_permission_denied_is_said(open_to_all: Path, code_open_to_all: Path) -> None:
    """As a user that owns nothing: root may read and write everything."""
    if os.getuid() != 0:
        pytest.skip("only root can become a user that owns nothing")
    workspace = open_to_all
    (workspace / "builds" / "pipit" / "build.yaml").chmod(0)
    copytree(ROOT / "builds" / "redshank", workspace / "builds" / "redshank")
    (workspace / "builds" / "curlew").chmod(0)
    workspace.chmod(0o755)
    script = (
        f"import os, sys; sys.path.insert(0, {str(code_open_to_all)!r})\n"
        "from pathlib import Path; from builder import pipeline; from builder.cli import main\n"
        "import builder, builder.publish.kept.stale, importlib, pkgutil\n"
        "for found in pkgutil.walk_packages(builder.__path__, 'builder.'):\n"
        "    if not found.name.endswith('__main__'):\n"
        "        importlib.import_module(found.name)\n"
        "builder.publish.kept.stale.own_digest()\n"
        # Python's own files may be read only before
        f"pipeline.check_workspace(Path({str(ROOT)!r}), ('dipper-light',))\n"
        f"os.setgid({NOBODY}); os.setuid({NOBODY}); main()"
    )

    def run(command: str) -> subprocess.CompletedProcess[str]:
        words = [sys.executable, "-c", script, command, "--workspace", str(workspace)]
        if command == "publish":
            words += ["--no-pdf", "--workers", "1"]
        # Python's line editor, which test runners load, tells processes a width behind os.environ.
        whole_lines = os.environ | {"COLUMNS": ""}
        return subprocess.run(
            words, capture_output=True, text=True, timeout=60, check=False, env=whole_lines
        )

    found = run("check")
    assert found.returncode == 1 and "Traceback" not in found.stderr
    for file in ("pipit/build.yaml", "curlew/build.yaml"):
        assert (
            f"{file}: mistake [data/unreadable] This file cannot be read: Permission denied."
            in found.stderr
        )
    assert "redshank: 0 faults" in found.stdout
    found = run("publish")
    assert found.returncode == 1 and "Traceback" not in found.stderr
    assert "Making the lock file failed: Permission denied." in found.stderr
