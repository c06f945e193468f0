"""State files save time and decide nothing: whatever is in them, the site is that of a clean
publish.
"""

import json
import os
import random
import stat
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.pipeline.publish import publish_site
from builder.publish.kept.belief import NOTHING_BELIEVED, SEAL, Belief, keep_belief, read_belief
from builder.publish.kept.manifest import MANIFEST
from builder.publish.kept.own_key import key_folder, own_key
from builder.publish.kept.read_cache_file import KNOWN, read_known
from builder.publish.kept.state_file import keep_state, read_state
from builder.publish.kept.unchanged import SEEN, look, nothing_new
from tests.publish.exactness import publish_here, site_files
from tests.publish.sources import Sources

FILES = (SEAL, KNOWN, SEEN, f"site/{MANIFEST}")
SEALED = (SEAL, KNOWN, SEEN)
DEEP = b"[" * 100_000
NASTY: dict[str, bytes] = {
    "empty": b"",
    "deep lists": DEEP,
    "deep objects": b'{"a":' * 100_000,
    "a huge number": b"9" * 5_000,
    "no number": b'{"version": NaN, "jobs": Infinity}',
    "a list": b"[]",
    "text": b'"x"',
    "keys twice": b'{"version":2,"version":2,"jobs":{},"jobs":{}}',
    "not UTF-8": b'{"version":2,"jobs":{"\xff\xfe":1}}',
    "zeros": bytes(5_000),
    "half a surrogate": (
        b'{"version":2,"jobs":{"\\ud800":{"digest":"","kept":false,"plain":{},"outputs":{}}}}'
    ),
}


@pytest.fixture(scope="module")
def published(
    tmp_path_factory: pytest.TempPathFactory,
) -> tuple[Path, dict[str, bytes], dict[str, bytes]]:
    """A published workspace, its site, and its state files."""
    workspace = tmp_path_factory.mktemp("state-files")
    Sources().write(workspace)
    assert publish_here(Sources().options(workspace)) == ()
    return (
        workspace,
        site_files(workspace),
        {name: (workspace / name).read_bytes() for name in FILES},
    )


def _spoilt(content: bytes, chance: random.Random) -> bytes:
    """A file after one accident."""
    at = chance.randrange(len(content))
    kind = chance.randrange(5)
    if kind == 0:
        return content[:at]
    if kind == 1:
        return content[:at] + bytes([content[at] ^ (1 << chance.randrange(8))]) + content[at + 1 :]
    if kind == 2:
        end = min(len(content), at + chance.randrange(1, 400))
        return content[:at] + content[end:]
    if kind == 3:
        return (
            content[:at]
            + chance.choice([DEEP, b"NaN", b"\xff", b"null", b"9" * 5_000, b'"', b"}"])
            + content[at:]
        )
    return content[:at] + content[: chance.randrange(len(content))]


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("seed", range(6))
def test_a_spoilt_file_changes_no_byte(
    published: tuple[Path, dict[str, bytes], dict[str, bytes]], name: str, seed: int
) -> None:
    workspace, clean, state = published
    (workspace / name).write_bytes(_spoilt(state[name], random.Random(f"{name} {seed}")))
    assert publish_here(Sources().options(workspace)) == ()
    assert site_files(workspace) == clean


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("how", NASTY)
def test_a_nasty_file_changes_no_byte(
    published: tuple[Path, dict[str, bytes], dict[str, bytes]], name: str, how: str
) -> None:
    workspace, clean, _ = published
    (workspace / name).write_bytes(NASTY[how])
    assert publish_here(Sources().options(workspace)) == ()
    assert site_files(workspace) == clean


def _pipe(path: Path) -> None:
    os.mkfifo(path)


def _endless(path: Path) -> None:
    path.symlink_to("/dev/zero")


def _huge(path: Path) -> None:
    path.touch()
    os.truncate(path, 2**40)


@pytest.mark.parametrize("name", SEALED)
@pytest.mark.parametrize("put", [_pipe, _endless, _huge, Path.mkdir])
def test_what_is_no_file_of_ours_is_not_read(
    published: tuple[Path, dict[str, bytes], dict[str, bytes]],
    name: str,
    put: Callable[[Path], None],
) -> None:
    workspace, clean, _ = published
    (workspace / name).unlink(missing_ok=True)
    put(workspace / name)
    try:
        assert read_state(workspace, name) is None
        publish_site(Sources().options(workspace))
        assert site_files(workspace) == clean
    finally:
        if (workspace / name).is_dir():
            (workspace / name).rmdir()


# Wrong on purpose under the right key: an older Benchleaf of one's own may have kept other shapes.
def _trees(tree: object, chance: random.Random) -> object:
    """A tree with one value in it exchanged."""
    odd: object = chance.choice(
        [None, True, -1, 1e308, float("nan"), "x", [], {}, [[]], {"a": 1}, 10**400]
    )
    if chance.random() < 0.25 or not isinstance(tree, list | dict) or not tree:
        return odd
    if isinstance(tree, list):
        at = chance.randrange(len(tree))
        return [*tree[:at], _trees(tree[at], chance), *tree[at + 1 :]]
    key = chance.choice(sorted(tree))
    return {**tree, key: _trees(tree[key], chance)}


@pytest.mark.parametrize("name", SEALED)
def test_other_shapes_under_our_own_seal_are_no_error(tmp_path: Path, name: str) -> None:
    Sources().write(tmp_path)
    options = Sources().options(tmp_path)
    assert publish_here(options) == ()
    body, chance = read_state(tmp_path, name), random.Random(name)
    assert body is not None
    before = (read_known(tmp_path), read_belief(tmp_path), nothing_new(options, look(options)))
    assert None not in before
    for _ in range(300):
        changed = json.dumps(_trees(json.loads(body), chance)).encode()
        assert keep_state(tmp_path, name, chance.choice([changed, changed[:-1], DEEP]))
        read_known(tmp_path)
        read_belief(tmp_path)
        said = nothing_new(options, look(options))
        assert said is None or {type(said.builds), type(said.files), type(said.status)} == {int}


def test_a_seal_is_of_one_file(tmp_path: Path) -> None:
    assert keep_state(tmp_path, KNOWN, b"content")
    (tmp_path / KNOWN).rename(tmp_path / SEEN)
    assert read_state(tmp_path, SEEN) is None
    (tmp_path / SEEN).rename(tmp_path / KNOWN)
    assert read_state(tmp_path, KNOWN) == b"content"


def test_a_link_in_the_way_of_a_new_file_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "mine").write_text("mine", "utf-8")
    for name in SEALED:
        (tmp_path / f"{name}.new").symlink_to(tmp_path / "mine")
        assert keep_state(tmp_path, name, b"x")
    assert (tmp_path / "mine").read_text("utf-8") == "mine"


@pytest.fixture
def state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A state folder of its own, not there yet."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return tmp_path / "state" / "benchleaf"


BELIEF = Belief(frozenset({"a"}), frozenset({"1 2 3 4 5 wren/a b.html"}))


def test_the_key_is_its_owners_alone(state: Path, tmp_path: Path) -> None:
    assert own_key(tmp_path / "w") is None, "none is made to read"
    (tmp_path / "w").mkdir()
    assert keep_belief(tmp_path / "w", BELIEF)
    key = state / "key"
    assert (stat.S_IMODE(key.stat().st_mode), stat.S_IMODE(state.stat().st_mode)) == (0o600, 0o700)
    assert len(key.read_bytes()) == 32 and [p.name for p in state.iterdir()] == ["key"]
    assert read_belief(tmp_path / "w") == BELIEF and BELIEF.files == {"wren/a b.html"}
    assert key.read_bytes() not in (tmp_path / "w" / SEAL).read_bytes()


@pytest.mark.parametrize(
    "spoil",
    [
        pytest.param(lambda folder: (folder / "key").chmod(0o640), id="others may read it"),
        pytest.param(lambda folder: folder.chmod(0o777), id="others may exchange it"),
        pytest.param(lambda folder: (folder / "key").write_bytes(bytes(31)), id="too short"),
        pytest.param(lambda folder: (folder / "key").write_bytes(os.urandom(32)), id="another"),
        pytest.param(
            lambda folder: (
                (folder / "key").rename(folder / "k") and (folder / "key").symlink_to("k")
            ),
            id="link",
        ),
    ],
)
def test_a_key_in_doubt_unlocks_nothing(
    state: Path, tmp_path: Path, spoil: Callable[[Path], object]
) -> None:
    workspace = tmp_path / "w"
    workspace.mkdir()
    assert keep_belief(workspace, BELIEF) and read_belief(workspace) == BELIEF
    spoil(state)
    assert read_belief(workspace) == NOTHING_BELIEVED


def test_a_key_that_came_with_the_workspace_is_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The home of a container may be the folder that was cloned."""
    theirs, mine = tmp_path / "theirs", tmp_path / "mine"
    theirs.mkdir()
    mine.mkdir()
    monkeypatch.setenv("XDG_STATE_HOME", str(mine / "state"))
    assert keep_belief(theirs, BELIEF) and read_belief(theirs) == BELIEF, (
        "sealed with the key that is in `mine`"
    )
    (theirs / SEAL).rename(mine / SEAL)
    assert read_belief(mine) == NOTHING_BELIEVED and not keep_belief(mine, BELIEF)


def test_a_folder_that_is_not_absolute_is_ignored(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """XDG Base Directory Specification: all paths must be absolute; a relative one is invalid and
    to be ignored.
    """
    monkeypatch.setenv("XDG_STATE_HOME", "state")
    monkeypatch.setenv("HOME", str(tmp_path))
    assert key_folder() == tmp_path / ".local/state/benchleaf"


def test_without_a_folder_for_the_key_all_is_made_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").touch()
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "file"))
    Sources().write(tmp_path / "w")
    first = publish_site(Sources().options(tmp_path / "w"))
    clean = site_files(tmp_path / "w")
    assert not any((tmp_path / "w" / name).exists() for name in SEALED)
    again = publish_site(Sources().options(tmp_path / "w"))
    assert (first.remarks, again.written) == ((), again.files)
    assert again.remarks[0].startswith("There is no key of your own in ")
    assert "Set XDG_STATE_HOME" in again.remarks[0] and site_files(tmp_path / "w") == clean
