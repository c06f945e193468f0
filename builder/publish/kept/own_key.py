"""The key of this account on this machine: what was sealed with it, nobody else sealed.

It lies where programs keep state of their user (`XDG_STATE_HOME` of the XDG Base Directory
Specification), is made when something is first sealed, and is read by its owner only. Nothing that
is published depends on it.
"""

import os
import stat
from contextlib import suppress
from pathlib import Path

from builder.system.account import is_mine, is_mine_alone
from builder.system.links import second_name
from builder.system.opening import open_new, open_to_read

_BYTES = 32


def key_folder() -> Path | None:
    """Where the key is, or would be; None where this account has no home."""
    profile = os.environ.get("LOCALAPPDATA", "") if os.name == "nt" else ""
    if profile:
        return Path(profile) / "benchleaf"
    named = os.environ.get("XDG_STATE_HOME", "")
    if named.startswith("/"):  # the specification: any other is to be ignored
        return Path(named) / "benchleaf"
    try:
        return Path.home() / ".local" / "state" / "benchleaf"
    except RuntimeError:
        return None


def own_key(workspace: Path, *, make: bool = False) -> bytes | None:
    """The key, made now where there is none and `make` says so.

    None where no key can be had that is this account's alone. One that lies in the workspace may
    have come with it.
    """
    folder = key_folder()
    try:
        if folder is None or folder.resolve().is_relative_to(workspace.resolve()):
            return None
        if make:
            folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            _make(folder)
        return _read(folder)
    except (OSError, RuntimeError):  # RuntimeError: a circle of links
        return None


def _read(folder: Path) -> bytes | None:
    around = folder.stat()
    if not is_mine(around):
        return None
    handle = open_to_read(folder / "key")
    try:
        lies = os.fstat(handle)
        if not is_mine_alone(lies) or not stat.S_ISREG(lies.st_mode) or lies.st_size != _BYTES:
            return None
        key = os.read(handle, _BYTES)
        return key if len(key) == _BYTES else None
    finally:
        os.close(handle)


def _make(folder: Path) -> None:
    """Whole or not at all, and only where there is none: two publishes may come here at once."""
    if os.path.lexists(folder / "key"):
        return
    aside = folder / f".key.{os.getpid()}"
    handle = open_new(aside, 0o600)
    try:
        os.write(handle, os.urandom(_BYTES))
        os.fsync(handle)
        with suppress(FileExistsError):
            _put(aside, folder / "key")
    finally:
        os.close(handle)
        aside.unlink(missing_ok=True)


def _put(aside: Path, target: Path) -> None:
    if not second_name(aside, target):
        aside.rename(target)
