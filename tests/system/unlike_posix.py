"""A stand-in for a system that is not POSIX: what Windows lacks is taken away before anything of
ours is imported, and what it refuses is refused.

It is no Windows: paths, code pages of the file system and the loader of libraries are this
machine's. What it shows is that nothing of ours asks for what is not there.

Taken away: `fcntl`, `resource`, `pwd`, `grp`, `termios`; of `os` the calls and flags below; of
`signal` alarms, masks and the signals of POSIX. Refused: opening a folder; replacing or renaming
what is open; a second name for a file where `links` is not given; a file whose name differs from
one that is there by case only is that file.

Run as: python -m tests.system.unlike_posix ENCODING ARGUMENTS-OF-BENCHLEAF...
"""

import builtins
import concurrent.futures.process
import importlib.abc
import io
import multiprocessing.spawn
import os
import signal
import subprocess
import sys
import types
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

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
    os.open = _refusing(os.open)
    builtins.open = _refusing(builtins.open)
    for module, names in ((os, OS), (signal, SIGNALS)):
        for name in names:
            if hasattr(module, name):
                delattr(module, name)
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
