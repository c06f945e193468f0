"""A site and state files that came with somebody's folder give not one byte to what is published
here.

Whoever alters a page can compute every digest anew, and seal it with a key: with his own. Each test
compares with a publish of the sources alone.
"""

import hashlib
import json
import os
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from shutil import copytree, rmtree

import pytest

from builder.pipeline.publish import publish_site
from builder.pipeline.published import Published
from builder.publish.kept.manifest import MANIFEST
from builder.publish.kept.unchanged import Said, look, nothing_new, remember
from builder.publish.swap import PublishError
from tests.publish.exactness import publish_here, read_manifest, site_files, write_kept
from tests.publish.sources import Sources

SCRIPT = b'<script src="https://stranger.example/x.js"></script>'
Account = Callable[[str], None]


@pytest.fixture
def account(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Account:
    """Whose state folder is in use."""
    return lambda name: monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "accounts" / name))


@pytest.fixture(scope="module")
def clean(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """The site of the sources alone."""
    workspace = tmp_path_factory.mktemp("clean")
    Sources().write(workspace)
    publish_site(Sources().options(workspace))
    return site_files(workspace)


def _publish(workspace: Path) -> Published:
    return publish_site(Sources().options(workspace))


def forge(workspace: Path, address: str = "wren/index.html") -> None:
    """Alters a page and makes all that tells of it agree, as whoever is the account now."""
    _publish(workspace)
    page = workspace / "site" / address
    page.write_bytes(page.read_bytes().replace(b"</body>", SCRIPT + b"</body>"))
    manifest = workspace / "site" / MANIFEST
    content = page.read_bytes()
    told = f'"{address}":["{hashlib.sha256(content).hexdigest()}",{len(content)}]'
    text, times = re.subn(rf'"{address}":\["\w+",\d+\]', told, manifest.read_text("utf-8"))
    assert times == 1
    manifest.write_text(text, "utf-8")
    write_kept(workspace, read_manifest(workspace / "site"), {})
    options = Sources().options(workspace)
    remember(options, look(options), Said((), (), 2, 9, 0))
    assert nothing_new(options, look(options)) is not None, "the stranger himself believes it all"


@pytest.fixture
def strangers(tmp_path: Path, account: Account) -> Iterator[Path]:
    """A stranger's workspace with a script in a page, and we are another account."""
    workspace = tmp_path / "strangers"
    Sources().write(workspace)
    account("stranger")
    forge(workspace)
    assert SCRIPT in (workspace / "site/wren/index.html").read_bytes()
    account("me")
    yield workspace


def test_an_altered_page_is_not_carried_on(strangers: Path, clean: dict[str, bytes]) -> None:
    """As it lies: sizes, times and inodes are as the stranger kept them. Only the key is another."""
    assert nothing_new(Sources().options(strangers), look(Sources().options(strangers))) is None
    done = _publish(strangers)
    assert site_files(strangers) == clean
    assert done.written == done.files and done.remarks[0].startswith(
        "`site/` was not published by this account"
    )
    assert not _publish(strangers).remarks, "it is ours now"


def test_nor_where_it_looks_like_one_that_was_moved_aside(
    strangers: Path, clean: dict[str, bytes]
) -> None:
    (strangers / "site").rename(strangers / ".site-old")
    _publish(strangers)
    assert site_files(strangers) == clean


def test_nor_from_a_copy_by_the_command(
    strangers: Path, tmp_path: Path, clean: dict[str, bytes]
) -> None:
    copytree(strangers, tmp_path / "copy")
    for _ in range(2):
        assert publish_here(Sources().options(tmp_path / "copy")) == ()
        assert site_files(tmp_path / "copy") == clean


@pytest.mark.parametrize(
    "lost", [".site-seal", ".site-seen", ".site-known", "site/.benchleaf.json"]
)
def test_nor_where_one_of_its_files_is_missing(
    strangers: Path, clean: dict[str, bytes], lost: str
) -> None:
    (strangers / lost).unlink()
    try:
        assert publish_here(Sources().options(strangers)) == ()
    except PublishError:
        assert lost.endswith(MANIFEST)
    if not lost.endswith(MANIFEST):
        assert site_files(strangers) == clean


def test_nothing_of_it_is_kept_where_a_build_cannot_be_published(strangers: Path) -> None:
    (strangers / "builds/wren/build.yaml").write_text("title: [", "utf-8")
    done = _publish(strangers)
    assert (done.kept, done.left_out, done.published) == ((), ("wren",), ("robin",))
    assert not (strangers / "site/wren").exists()
    assert "nothing of it was kept" in done.remarks[0]


def test_nor_said_to_be_kept_where_nothing_can_be_read(strangers: Path) -> None:
    before = site_files(strangers)
    (strangers / "builds/site.yaml").write_text("a: [", "utf-8")
    done = _publish(strangers)
    assert (done.kept, sorted(done.left_out), done.files) == ((), ["robin", "wren"], 0)
    assert "stays as it is" in done.remarks[0] and site_files(strangers) == before


def test_dot_files_that_came_along_are_named(strangers: Path) -> None:
    (strangers / "site/.htaccess").write_text("Redirect / https://stranger.example/", "utf-8")
    assert ".htaccess" in _publish(strangers).remarks[1]


def test_what_i_keep_is_kept(tmp_path: Path, account: Account) -> None:
    """The same break in a workspace of my own keeps what was published: also in a copy, where all
    lies otherwise.
    """
    account("me")
    Sources().write(tmp_path / "mine")
    _publish(tmp_path / "mine")
    copytree(tmp_path / "mine", tmp_path / "copy")
    for workspace in (tmp_path / "mine", tmp_path / "copy"):
        (workspace / "builds/wren/build.yaml").write_text("title: [", "utf-8")
        done = _publish(workspace)
        assert (done.kept, done.remarks) == (("wren",), ())
        assert (workspace / "site/wren/index.html").is_file()


def _same_size_and_time(page: Path) -> None:
    before = page.stat()
    page.write_bytes(page.read_bytes().replace(b"Wren", b"Crow"))
    os.utime(page, ns=(before.st_atime_ns, before.st_mtime_ns))


def _another_file(page: Path) -> None:
    text = page.read_bytes().replace(b"Wren", b"Crow")
    page.unlink()
    page.write_bytes(text)


@pytest.mark.parametrize("alter", [_same_size_and_time, _another_file])
def test_an_edit_of_the_same_size_in_my_own_site_is_seen(
    tmp_path: Path, account: Account, alter: Callable[[Path], None]
) -> None:
    account("me")
    sources = Sources()
    sources.write(tmp_path / "mine")
    _publish(tmp_path / "mine")
    alter(tmp_path / "mine/site/wren/index.html")
    sources.builds["robin"]["title"] = "Robin, again"
    for workspace in (tmp_path / "mine", tmp_path / "alone"):
        sources.write(workspace)
        _publish(workspace)
    assert site_files(tmp_path / "mine") == site_files(tmp_path / "alone")


def test_a_manifest_that_another_hand_altered_gives_nothing(
    tmp_path: Path, account: Account, clean: dict[str, bytes]
) -> None:
    """A pull of a branch that holds `site/`: page and manifest agree, my seal is of another
    manifest.
    """
    account("me")
    Sources().write(tmp_path / "mine")
    _publish(tmp_path / "mine")
    Sources().write(tmp_path / "theirs")
    account("stranger")
    forge(tmp_path / "theirs")
    rmtree(tmp_path / "mine/site")
    copytree(tmp_path / "theirs/site", tmp_path / "mine/site")
    account("me")
    done = _publish(tmp_path / "mine")
    assert "is not as it was written" in done.remarks[0]
    assert site_files(tmp_path / "mine") == clean


def test_the_manifest_tells_nothing_of_who_published(tmp_path: Path, account: Account) -> None:
    for name in ("me", "stranger"):
        account(name)
        Sources().write(tmp_path / name)
        _publish(tmp_path / name)
    assert site_files(tmp_path / "me") == site_files(tmp_path / "stranger")
    assert json.loads((tmp_path / "me/site" / MANIFEST).read_bytes()).keys() == {"version", "jobs"}


def test_a_cut_manifest_of_a_strangers_site_is_called_that(strangers: Path) -> None:
    manifest = strangers / "site" / MANIFEST
    manifest.write_bytes(manifest.read_bytes()[:-40])
    before = site_files(strangers)
    with pytest.raises(PublishError) as said:
        _publish(strangers)
    assert (
        said.value.message
        == "`site/.benchleaf.json`, the list of what was published, is cut or altered."
    )
    assert said.value.hint.startswith(
        "Take your own files out of `site/`, if it has any, delete it"
    )
    assert site_files(strangers) == before
    rmtree(strangers / "site")  # as it says
    assert len(_publish(strangers).published) == 2


def test_a_cut_manifest_of_my_own_is_written_anew(
    tmp_path: Path, account: Account, clean: dict[str, bytes]
) -> None:
    account("me")
    Sources().write(tmp_path / "mine")
    _publish(tmp_path / "mine")
    manifest = tmp_path / "mine/site" / MANIFEST
    manifest.write_bytes(manifest.read_bytes()[:-40])
    assert "is not as it was written" in _publish(tmp_path / "mine").remarks[0]
    assert site_files(tmp_path / "mine") == clean
