"""Links, pipes and folders that came with a stranger's workspace, at every place that is written or
read: 260 cases.

`BENCHLEAF_LONG=1 pytest tests/hostile` tries each thing at each place; without it links to what
lies outside are tried at each, and of the others one in four.

Nothing outside the site is written, read into it, or deleted; what is refused is said in one
sentence; and once the thing is taken away, the next publish gives the site that was due.
"""

import hashlib
import os
import re
from collections.abc import Callable
from pathlib import Path
from shutil import copytree, rmtree

import pytest
from click.testing import CliRunner

from builder.cli.main import cli
from builder.pipeline.preview.preview import Preview
from tests.publish.exactness import site_files
from tests.publish.sources import Sources

pytestmark = pytest.mark.slow  # takes long

LONG = bool(os.environ.get("BENCHLEAF_LONG"))
SECRET = "canary-5b2e-never-published"
RANDOM = "0123456789abcdef"


def _folder(at: Path) -> Path:
    """A place in a new folder."""
    at.mkdir()
    return at / "inside"


# What lies in the place of a file or folder; `outside` is a folder with secrets.
THINGS: dict[str, Callable[[Path, Path], object]] = {
    "a link to a file outside": lambda at, outside: at.symlink_to(outside / "secret.txt"),
    "a link to a folder outside": lambda at, outside: at.symlink_to(outside),
    "a link to nothing outside": lambda at, outside: at.symlink_to(outside / "not-there"),
    "a link to itself": lambda at, outside: at.symlink_to(at.name),
    "a link to the folder above": lambda at, outside: at.symlink_to(".."),
    "a link to a device": lambda at, outside: at.symlink_to("/dev/zero"),
    "a pipe": lambda at, outside: os.mkfifo(at),
    "a hard link to a file outside": lambda at, outside: at.hardlink_to(outside / "secret.txt"),
    "a folder": lambda at, outside: _folder(at).write_text("x"),
    "a folder with links": lambda at, outside: _folder(at).symlink_to(outside),
}
# Beside the site: whatever lies there, a publish goes on or says one sentence.
BESIDE = (
    ".site-lock",
    ".site-known",
    ".site-known.new",
    ".site-seen",
    ".site-seen.new",
    ".site-next",
    f".site-next-{RANDOM}",
    ".site-old",
    f".site-old-{RANDOM}",
    f".site-known.{RANDOM}",
)
IN_SITE = (
    "site",
    "site/index.html",
    "site/wren",
    "site/.benchleaf.json",
    "site/.own",
    "site/extra.html",
    "site/wren/index.html",
)
SOURCES = (
    "builds/shelf",
    "builds/shelf/air.yaml",
    "builds/wren",
    "builds/wren/build.yaml",
    "builds/site.yaml",
)
TEMPLATES = ("templates", "templates/static", "templates/page.html", "templates/static/own.svg")


def _tried(places: tuple[str, ...]) -> list[tuple[str, str]]:
    """Which things are tried at which places."""
    pairs = [(place, what) for place in places for what in THINGS]
    always = ("a link to a file outside", "a link to a folder outside")
    return [
        p for i, p in enumerate(pairs) if LONG or p[1] in always or (i + i // len(THINGS)) % 4 == 0
    ]


def _outside(folder: Path) -> Path:
    folder.mkdir()
    (folder / "secret.txt").write_text(SECRET)
    (folder / "own.svg").write_text(
        f"<svg xmlns='http://www.w3.org/2000/svg'><text>{SECRET}</text></svg>"
    )
    (folder / "page.html").write_text(SECRET)
    (folder / "sub").mkdir()
    (folder / "sub" / "index.html").write_text(SECRET)
    return folder


def _all(folder: Path) -> str:
    """Names, kinds, links and bytes of all that lies in a folder."""
    digest = hashlib.sha256()
    for path in sorted(folder.rglob("*")):
        about = path.lstat()
        digest.update(f"{path.relative_to(folder)}\0{about.st_mode}\0{about.st_size}\0".encode())
        digest.update(path.read_bytes() if path.is_file() and not path.is_symlink() else b"")
    return digest.hexdigest()


def _run(*words: str) -> tuple[int, str]:
    done = CliRunner().invoke(cli, words)
    assert done.exception is None or isinstance(done.exception, SystemExit), repr(done.exception)
    assert "Traceback" not in done.output and "inside Benchleaf" not in done.output, done.output
    return done.exit_code, done.output


def _publish(workspace: Path) -> tuple[int, str]:
    return _run("publish", "--no-pdf", "--workers", "1", "--workspace", str(workspace))


def _said(output: str) -> list[str]:
    return [
        line
        for line in re.findall(r"^benchleaf: (.*)$", output, re.MULTILINE)
        if "bench sheets were not printed" not in line
    ]


@pytest.fixture(scope="module")
def ready(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A published workspace whose sources were edited since. Nothing in it may be changed."""
    folder = tmp_path_factory.mktemp("ready")
    sources = Sources()
    sources.pictures["wren"] = 3
    sources.builds["wren"]["hero"] = {"file": "top.svg", "alt": "Words"}
    sources.write(folder)
    assert _publish(folder)[0] == 0
    sources.builds["wren"]["title"] = "Wren, again"
    sources.write(folder)
    return folder


@pytest.fixture(scope="module")
def due(ready: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The site that the next publish gives where nobody disturbs it."""
    folder = tmp_path_factory.mktemp("due") / "workspace"
    copytree(ready, folder)
    assert _publish(folder)[0] == 0
    return site_files(folder)


def _put(ready: Path, tmp_path: Path, name: str, what: str) -> tuple[Path, Path, str]:
    """A copy of the workspace with a thing at a place, and what lies outside it."""
    workspace, outside = tmp_path / "workspace", _outside(tmp_path / "outside")
    copytree(ready, workspace)
    at = workspace / name
    if at.is_dir() and not at.is_symlink():
        rmtree(at)
    at.unlink(missing_ok=True)
    at.parent.mkdir(parents=True, exist_ok=True)
    THINGS[what](at, outside)
    return workspace, outside, _all(outside)


def _no_secret(workspace: Path) -> None:
    for path in (workspace / "site").rglob("*") if not (workspace / "site").is_symlink() else ():
        assert (
            path.is_symlink() or not path.is_file() or SECRET.encode() not in path.read_bytes()
        ), path


@pytest.mark.parametrize(("name", "what"), _tried(BESIDE))
def test_beside_the_site(
    ready: Path, due: dict[str, bytes], tmp_path: Path, name: str, what: str
) -> None:
    workspace, outside, before = _put(ready, tmp_path, name, what)
    status, output = _publish(workspace)
    assert _all(outside) == before
    if status == 0:
        assert site_files(workspace) == due
        status, output = _publish(workspace)
        assert status == 0 and _all(outside) == before
    else:
        assert name == ".site-lock" and status == 1
        assert len(_said(output)) == 1 and "lock" in _said(output)[0], output
        at = workspace / name
        rmtree(at) if at.is_dir() and not at.is_symlink() else at.unlink()
        assert _publish(workspace)[0] == 0 and site_files(workspace) == due
    _no_secret(workspace)


@pytest.mark.parametrize(("name", "what"), _tried(IN_SITE))
def test_in_the_site(
    ready: Path, due: dict[str, bytes], tmp_path: Path, name: str, what: str
) -> None:
    workspace, outside, before = _put(ready, tmp_path, name, what)
    status, output = _publish(workspace)
    assert status in (0, 1) and _all(outside) == before
    if status == 1:
        assert len(_said(output)) == 1, output
        at = workspace / name
        rmtree(at) if at.is_dir() and not at.is_symlink() else at.unlink()
        if name == "site/.benchleaf.json":  # nothing of the site is known without it
            rmtree(workspace / "site")
        status, output = _publish(workspace)
    assert status == 0 and _all(outside) == before, output
    assert {p: c for p, c in site_files(workspace).items() if not p.startswith(".own")} == due
    if not (name == "site/.own" and what.startswith("a hard link")):
        _no_secret(workspace)


@pytest.mark.parametrize(("name", "what"), _tried(SOURCES))
def test_among_the_sources(ready: Path, tmp_path: Path, name: str, what: str) -> None:
    workspace, outside, before = _put(ready, tmp_path, name, what)
    for words in (
        ("check",),
        ("publish", "--no-pdf", "--workers", "1"),
        ("start", "new-one", "--size", "2-inch"),
    ):
        status, output = _run(*words, "--workspace", str(workspace))
        assert status in (0, 1), output
        assert _all(outside) == before
    if not what.startswith("a hard link"):
        _no_secret(workspace)
    (
        rmtree(workspace / "builds")
        if not (workspace / "builds").is_symlink()
        else (workspace / "builds").unlink()
    )
    copytree(ready / "builds", workspace / "builds")
    assert _publish(workspace)[0] == 0


@pytest.mark.parametrize(("name", "what"), _tried(TEMPLATES))
def test_among_the_templates(
    ready: Path, due: dict[str, bytes], tmp_path: Path, name: str, what: str
) -> None:
    workspace, outside, before = _put(ready, tmp_path, name, what)
    status, output = _publish(workspace)
    assert status in (0, 1) and _all(outside) == before
    assert len(_said(output)) == status, output
    if not what.startswith("a hard link"):
        _no_secret(workspace)
        shown = Preview(workspace)
        shown.refresh()
        if shown._sources is not None:
            held = (
                *shown.sources.assets.values(),
                *(t.encode() for t in shown.sources.texts.values()),
            )
            assert not any(SECRET.encode() in content for content in held)
    at = workspace / "templates"
    rmtree(at) if at.is_dir() and not at.is_symlink() else at.unlink()
    assert _publish(workspace)[0] == 0 and site_files(workspace) == due


@pytest.mark.parametrize("name", ["builds", "builds/shelf", "builds/new-one"])
def test_a_new_build_is_never_written_through_a_link(
    ready: Path, tmp_path: Path, name: str
) -> None:
    for what in (
        "a link to a folder outside",
        "a link to nothing outside",
        "a link to the folder above",
    ):
        folder = tmp_path / what.replace(" ", "-")
        folder.mkdir()
        workspace, outside, before = _put(ready, folder, name, what)
        status, output = _run("start", "new-one", "--size", "2-inch", "--workspace", str(workspace))
        assert status == 1 and _all(outside) == before, output
        assert not (workspace / "new-one").exists() and not (workspace / "shelf").exists()


def test_a_site_that_was_moved_aside_is_put_back_beside_hostile_ones(
    ready: Path, due: dict[str, bytes], tmp_path: Path
) -> None:
    workspace, outside = tmp_path / "workspace", _outside(tmp_path / "outside")
    copytree(ready, workspace)
    (workspace / "site").rename(workspace / f".site-old-{RANDOM}")
    (workspace / ".site-old-fedcba9876543210").symlink_to(outside)
    (workspace / ".site-old").symlink_to(outside)
    (workspace / ".site-next-fedcba9876543210").symlink_to(outside)
    before = _all(outside)
    assert _publish(workspace)[0] == 0
    assert site_files(workspace) == due and _all(outside) == before


def test_two_renames_in_place_of_one_follow_no_link(
    ready: Path, due: dict[str, bytes], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("builder.publish.swap.exchange", lambda a, b: False)
    workspace, outside, before = _put(ready, tmp_path, ".site-old", "a link to a folder outside")
    assert _publish(workspace)[0] == 0
    assert site_files(workspace) == due and _all(outside) == before


def test_nothing_that_is_called_like_ours_but_is_not_is_removed(
    ready: Path, tmp_path: Path
) -> None:
    workspace = tmp_path / "workspace"
    copytree(ready, workspace)
    kept = (
        ".site-next-mine",
        ".site-older",
        ".site-next-0123456789ABCDEF",
        ".site-notes",
        ".site-next-0123",
    )
    for name in kept:
        (workspace / name).mkdir()
        (workspace / name / "mine.txt").write_text("mine")
    assert _publish(workspace)[0] == 0
    assert all((workspace / name / "mine.txt").read_text() == "mine" for name in kept)


def test_the_places_are_many() -> None:
    places = (*BESIDE, *IN_SITE, *SOURCES, *TEMPLATES)
    assert len(places) * len(THINGS) >= 260
    tried = [pair for group in (BESIDE, IN_SITE, SOURCES, TEMPLATES) for pair in _tried(group)]
    assert (
        len(tried) >= 100
        and {place for place, _ in tried} == set(places)
        and {what for _, what in tried} == set(THINGS)
    )
