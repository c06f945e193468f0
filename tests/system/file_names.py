"""File names of a system that is not this one, for stand-ins: a name that differs by case only, or
by how an accent is composed, is the same name; a folder is listed with its accents taken apart
where the system does so.
"""

# The calls of the system are what is stood in for:
# ruff: noqa: PTH118, PTH120

import builtins
import io
import os
import unicodedata
from collections.abc import Callable, Iterator
from typing import Any

ONE_PATH = (
    "open", "stat", "lstat", "mkdir", "unlink", "remove", "rmdir", "utime", "chmod", "access",
    "readlink",
)  # fmt: skip
TWO_PATHS = ("rename", "replace", "link")
_READ = {name: getattr(os, name) for name in ("lstat", "listdir", "scandir")}


def same(name: str) -> str:
    """What two spellings of one name have in common."""
    return unicodedata.normalize("NFC", name).casefold()


def lies_as(path: Any) -> Any:
    """The path as it lies on this disk, when a folder has its name in another spelling."""
    if isinstance(path, int) or path is None:
        return path
    text = os.fsdecode(path)
    if _is_there(text) or not text.strip("/"):
        return text
    above, name = os.path.split(text.rstrip("/"))
    folder = lies_as(above) if above else above
    try:
        inside = _READ["listdir"](folder or ".")
    except OSError:
        return os.path.join(folder, name)
    alike = [other for other in inside if same(other) == same(name)]
    return os.path.join(folder, alike[0] if alike else name)


def _is_there(text: str) -> bool:
    try:
        _READ["lstat"](text)
    except (OSError, ValueError):
        return False
    return True


def _of_one(real: Callable[..., Any]) -> Callable[..., Any]:
    def call(path: Any, *rest: Any, **more: Any) -> Any:
        return real(lies_as(path), *rest, **more)

    return call


def _of_two(real: Callable[..., Any]) -> Callable[..., Any]:
    def call(there: Any, new: Any, *rest: Any, **more: Any) -> Any:
        return real(lies_as(there), lies_as(new), *rest, **more)

    return call


class _Apart:
    """What lies in a folder, with the accents of its name taken apart."""

    def __init__(self, entry: "os.DirEntry[str]") -> None:
        self._entry = entry
        self.name = _taken_apart(entry.name)
        self.path = os.path.join(os.path.dirname(entry.path), self.name)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._entry, name)

    def __fspath__(self) -> str:
        return self.path


class _Listing:
    def __init__(self, real: Any) -> None:
        self._real = real

    def __enter__(self) -> "_Listing":
        return self

    def __exit__(self, *why: object) -> None:
        self.close()

    def __iter__(self) -> Iterator[_Apart]:
        return map(_Apart, self._real)

    def __next__(self) -> _Apart:
        return _Apart(next(self._real))

    def close(self) -> None:
        self._real.close()


def ignore_case(*, apart: bool = False) -> None:
    """From now on names are looked for so in this process; with `apart` folders list them so."""
    for name in ONE_PATH:
        setattr(os, name, _of_one(getattr(os, name)))
    for name in TWO_PATHS:
        if hasattr(os, name):
            setattr(os, name, _of_two(getattr(os, name)))
    builtins.open = io.open = _of_one(builtins.open)
    listed, scanned = _READ["listdir"], _READ["scandir"]
    spelt: Callable[[str], str] = _taken_apart if apart else str
    shown: Callable[[Any], Any] = _Listing if apart else _as_it_is
    ours: Any = os
    ours.listdir = lambda path=".": [spelt(name) for name in listed(lies_as(path))]
    ours.scandir = lambda path=".": shown(scanned(lies_as(path)))


def _taken_apart(name: str) -> str:
    return unicodedata.normalize("NFD", name)


def _as_it_is(listing: Any) -> Any:
    return listing
