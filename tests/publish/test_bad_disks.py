"""Disks that are full, read-only, or without links and exchange; two publishes at once; any number
of workers.
"""

import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli.main import cli
from builder.publish import swap
from builder.publish.stage import Stage
from builder.publish.swap import LOCK, PublishError, leftovers, locked
from tests.publish.exactness import site_files
from tests.publish.sources import Sources


def _publish(workspace: Path, *more: str) -> tuple[int, str]:
    done = CliRunner().invoke(
        cli, ["publish", "--no-pdf", "--workers", "1", "--workspace", str(workspace), *more]
    )
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return done.exit_code, done.output


def _said_by_benchleaf(output: str) -> str:
    return "\n".join(re.findall(r"^benchleaf: .*(?:\n  .*)?", output, re.MULTILINE))


def _published(workspace: Path) -> Sources:
    sources = Sources()
    sources.write(workspace)
    assert _publish(workspace)[0] == 0
    sources.builds["wren"]["title"] = "Wren, again"
    return sources


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 6 MB, or the reason why there is none."""
    disk = tmp_path / "disk"
    disk.mkdir()
    if os.geteuid() != 0 or sys.platform != "linux":
        pytest.skip("a small disk can be mounted by root on Linux only")
    words = ["mount", "-t", "tmpfs", "-o", "size=6m", "tmpfs", str(disk)]
    mounted = subprocess.run(words, capture_output=True, text=True, check=False)
    if mounted.returncode:
        pytest.skip(f"a small disk cannot be mounted here: {mounted.stderr.strip()}")
    yield disk
    subprocess.run(["umount", "-l", str(disk)], check=True)


def test_a_full_disk_leaves_the_old_site_whole(small_disk: Path) -> None:
    sources = _published(small_disk)
    before = site_files(small_disk)
    sources.write(small_disk)
    filler = small_disk / "filler"
    free = shutil.disk_usage(small_disk).free
    filler.write_bytes(b"x" * (free - 32 * 1024))
    status, output = _publish(small_disk)
    assert status == 1
    assert (
        _said_by_benchleaf(output)
        == "benchleaf: Writing the site failed: No space left on device.\n"
        "  Make room on the disk and publish again; the old site is untouched."
    )
    assert site_files(small_disk) == before
    assert not leftovers(small_disk), "what was begun does not keep the room"
    filler.unlink()
    assert _publish(small_disk)[0] == 0
    assert "Wren, again" in site_files(small_disk)["wren/index.html"].decode()


def test_a_read_only_disk_is_said(small_disk: Path) -> None:
    sources = _published(small_disk)
    sources.write(small_disk)
    before = site_files(small_disk)
    subprocess.run(["mount", "-o", "remount,ro", str(small_disk)], check=True)
    status, output = _publish(small_disk)
    assert status == 1
    said = _said_by_benchleaf(output)
    assert re.fullmatch(
        r"benchleaf: .* failed: Read-only file system\.\n  The disk is read-only; .*", said
    ), output
    assert site_files(small_disk) == before


def test_a_folder_that_another_user_owns_is_said(tmp_path: Path) -> None:
    if os.geteuid() != 0:
        pytest.skip("only root can become another user")
    workspace = tmp_path / "workspace"
    sources = _published(workspace)
    sources.write(workspace)
    (workspace / LOCK).unlink()
    before = site_files(workspace)
    scratch = Path(tempfile.gettempdir())
    for folder in (tmp_path, *tmp_path.parents):
        if scratch in folder.parents:
            folder.chmod(0o755)
    os.seteuid(
        65534
    )  # rights bind from here on; what a publish imports was imported by the first one
    try:
        status, output = _publish(workspace)
    finally:
        os.seteuid(0)
    assert status == 1
    assert "failed: Permission denied.\n  Check who owns" in _said_by_benchleaf(output)
    assert site_files(workspace) == before


def test_a_file_system_without_links_or_exchange_gives_the_same_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It copies in place of linking, and renames twice in place of once."""
    plain, odd = tmp_path / "plain", tmp_path / "odd"
    for workspace in (plain, odd):
        _published(workspace).write(workspace)
    _publish(plain)

    def refuse(*arguments: object, **more: object) -> None:
        raise OSError(95, "Operation not supported")

    monkeypatch.setattr(os, "link", refuse)
    monkeypatch.setattr(swap, "exchange", lambda a, b: False)
    assert _publish(odd)[0] == 0
    assert site_files(odd) == site_files(plain)
    assert not leftovers(odd)


def test_where_the_second_rename_fails_the_old_site_is_put_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / "index.html").write_text("old")
    monkeypatch.setattr(swap, "exchange", lambda a, b: False)
    rename = Path.rename

    def once(self: Path, target: Path) -> Path:
        if self.name.startswith(".site-next"):
            raise OSError(28, "No space left on device")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", once)
    stage = Stage(tmp_path)
    stage.put("index.html", b"new")
    with pytest.raises(PublishError):
        stage.swap_in(())
    assert not leftovers(tmp_path)
    assert (tmp_path / "site" / "index.html").read_text() == "old"


@pytest.mark.parametrize("name", [".site-old", ".site-old-0123456789abcdef"])
def test_a_kill_between_two_renames_is_healed(tmp_path: Path, name: str) -> None:
    _published(tmp_path)
    before = site_files(tmp_path)
    (tmp_path / "site").rename(tmp_path / name)
    (tmp_path / ".site-next-0123456789abcdef").mkdir()
    assert _publish(tmp_path)[0] == 0
    assert site_files(tmp_path) == before
    assert not leftovers(tmp_path)


def test_two_publishes_at_once_do_not_mix(tmp_path: Path) -> None:
    sources = _published(tmp_path)
    before = site_files(tmp_path)
    sources.write(tmp_path)
    with locked(tmp_path):
        status, output = _publish(tmp_path)
    assert status == 1
    assert (
        _said_by_benchleaf(output)
        == "benchleaf: Another publish of this workspace is running.\n  Wait for it, then publish"
        " again."
    )
    assert site_files(tmp_path) == before
    assert _publish(tmp_path)[0] == 0


def test_any_number_of_workers_gives_the_same_bytes_and_the_same_words(tmp_path: Path) -> None:
    sites, words = [], []
    for workers in ("1", "2", "3"):
        workspace = tmp_path / "workspace"
        shutil.rmtree(workspace, ignore_errors=True)
        Sources().write(workspace)
        status, output = _publish(workspace, "--workers", workers)
        assert status == 0
        sites.append(site_files(workspace))
        words.append(re.sub(r"in [\d.]+ s", "in so many s", output))
    assert sites[0] == sites[1] == sites[2]
    assert words[0] == words[1] == words[2]
