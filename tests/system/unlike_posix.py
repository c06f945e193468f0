"""A stand-in for a system that is not POSIX: what Windows lacks is taken away before anything of
ours is imported, and what it refuses is refused.

It is no Windows: paths, code pages of the file system and the loader of libraries are this
machine's. What it shows is that nothing of ours asks for what is not there.

Taken away: `fcntl`, `resource`, `pwd`, `grp`, `termios`; of `os` the calls and flags below; of
`signal` alarms, masks and the signals of POSIX; libraries of no name, by which the system itself is
called. Refused: opening a folder; replacing, renaming or deleting what this process holds open, or
what lies in HELD; renaming to a name that is taken; names and paths that Windows has not. A file
whose name differs from one that is there by case only is that file.

Run as: python -m tests.system.unlike_posix ENCODING ARGUMENTS-OF-BENCHLEAF...
"""

# The calls of the system are what is stood in for:
# ruff: noqa: PTH100, PTH112, PTH115, PTH119, PTH208

import builtins
import concurrent.futures.process
import ctypes
import importlib.abc
import io
import multiprocessing.spawn
import os
import shutil
import signal
import subprocess
import sys
import types
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from tests.system.file_names import ignore_case

# Of the library, and written for this machine: imported while it still is one.
THIS_MACHINE = (concurrent.futures.process, multiprocessing.spawn, subprocess)
LACKING = ("fcntl", "resource", "pwd", "grp", "termios", "readline")
OS = (
    "O_CLOEXEC", "O_NOFOLLOW", "O_NONBLOCK", "O_NOCTTY", "O_DIRECTORY", "geteuid", "getuid",
    "getgid", "getegid", "fork", "setsid", "killpg", "sysconf", "link", "sched_getaffinity",
    "uname", "nice", "mkfifo",
)  # fmt: skip
SIGNALS = (
    "SIGALRM", "SIGUSR1", "SIGUSR2", "setitimer", "ITIMER_REAL", "pthread_sigmask", "pthread_kill",
    "SIG_BLOCK",
)  # fmt: skip

RESERVED = {"CON", "PRN", "AUX", "NUL", *(f"{n}{i}" for n in ("COM", "LPT") for i in range(1, 10))}
LONGEST = 259  # characters of a path, unless the machine was set to allow more


class _Hidden(importlib.abc.MetaPathFinder):
    def find_spec(self, name: str, path: object = None, target: object = None) -> None:
        if name in LACKING:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)


def _is_ours() -> bool:
    """Whether the call comes from our package: libraries are written for this machine."""
    frame = sys._getframe(2)
    return os.sep + "builder" + os.sep in frame.f_code.co_filename


def _refusing(real: Callable[..., Any]) -> Callable[..., Any]:
    def opened(path: Any, *rest: Any, **more: Any) -> Any:
        if not isinstance(path, int) and _is_ours() and Path(os.fsdecode(path)).is_dir():
            raise PermissionError(13, "Permission denied", os.fspath(path))
        return real(path, *rest, **more)

    return opened


def _open_here() -> set[str]:
    """What this process holds open, and what somebody else does: the paths in HELD, by `:`."""
    here = {path for path in os.environ.get("HELD", "").split(":") if path}
    for handle in os.listdir("/proc/self/fd"):
        try:
            here.add(os.readlink(f"/proc/self/fd/{handle}"))
        except OSError:
            continue
    return here


def _refuse_open(path: Any) -> None:
    """A file that is open is neither moved nor deleted, nor is a folder that one lies in."""
    full = os.path.realpath(os.fsdecode(path))
    if any(held == full or held.startswith(full + os.sep) for held in _open_here()):
        raise PermissionError(13, "The process cannot access the file", os.fsdecode(path))


def _moving(real: Callable[..., Any], *, over: bool) -> Callable[..., Any]:
    """`over`: a file takes the place of another; a folder never does."""

    def moved(there: Any, new: Any, *rest: Any, **more: Any) -> Any:
        _refuse_open(there)
        _refuse_name(new)
        if os.path.lexists(new) and os.path.realpath(new) != os.path.realpath(there):
            _refuse_open(new)
            if not over:
                raise FileExistsError(17, "File exists", os.fsdecode(new))
            if os.path.isdir(new):
                raise PermissionError(13, "Permission denied", os.fsdecode(new))
        return real(there, new, *rest, **more)

    return moved


def _deleting(real: Callable[..., Any]) -> Callable[..., Any]:
    def deleted(path: Any, *rest: Any, **more: Any) -> Any:
        _refuse_open(path)
        return real(path, *rest, **more)

    return deleted


def _refuse_name(path: Any) -> None:
    """Names that Windows makes no file of, and paths of more than 259 characters."""
    text = os.fsdecode(path)
    name = os.path.basename(text.rstrip("/"))
    if set(name) & set('\\:*?"<>|') or name[-1:] in (".", " "):
        raise OSError(22, "Invalid argument", text)
    if name.partition(".")[0].upper() in RESERVED:
        raise OSError(22, "Invalid argument", text)
    if len(os.path.abspath(text)) > LONGEST:
        raise FileNotFoundError(2, "No such file or directory", text)


def _making(real: Callable[..., Any]) -> Callable[..., Any]:
    def made(path: Any, *rest: Any, **more: Any) -> Any:
        if not isinstance(path, int) and _is_ours():
            _refuse_name(path)
        return real(path, *rest, **more)

    return made


def _no_library(real: Callable[..., Any]) -> Callable[..., Any]:
    def library(name: Any, *rest: Any, **more: Any) -> Any:
        if name is None:
            raise TypeError("bad argument type for built-in operation")
        return real(name, *rest, **more)

    return library


def _locked_by_bytes() -> types.ModuleType:
    """`msvcrt` of this machine: its lock of one byte."""
    import fcntl

    made = types.ModuleType("msvcrt")
    made.LK_NBLCK = 2  # type: ignore[attr-defined]

    def locking(handle: int, mode: int, count: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)

    made.locking = locking  # type: ignore[attr-defined]
    return made


def become(encoding: str) -> None:
    """From now on this process runs on the stand-in."""
    sys.modules["msvcrt"] = _locked_by_bytes()
    sys.meta_path.insert(0, _Hidden())
    for name in LACKING:
        sys.modules.pop(name, None)
    ctypes.CDLL = _no_library(ctypes.CDLL)  # type: ignore[misc, assignment]
    os.rename, os.replace = _moving(os.rename, over=False), _moving(os.replace, over=True)
    os.unlink = os.remove = _deleting(os.unlink)
    os.mkdir = _making(os.mkdir)
    os.open = _making(_refusing(os.open))
    builtins.open = io.open = _making(_refusing(builtins.open))
    for module, names in ((os, OS), (signal, SIGNALS)):
        for name in names:
            if hasattr(module, name):
                delattr(module, name)
    # a machine without them deletes folders by name; the library found that out as it was imported
    shutil._use_fd_functions = False  # type: ignore[attr-defined]
    ignore_case()
    sys.stdout = io.TextIOWrapper(sys.stdout.buffer, encoding=encoding, write_through=True)
    sys.stderr = io.TextIOWrapper(sys.stderr.buffer, encoding=encoding, write_through=True)


def main(arguments: Sequence[str]) -> None:
    """One command on the stand-in."""
    become(arguments[0])
    sys.argv = ["benchleaf", *arguments[1:]]
    from builder.cli import main as command

    command()


if __name__ == "__main__":
    main(sys.argv[1:])
