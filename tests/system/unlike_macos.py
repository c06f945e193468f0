"""A stand-in for a macOS machine: the calls that only Linux has are taken away, a limit of memory is
refused, names that differ by case are one, and a folder lists its accents taken apart.

It is no Mac: the loader of libraries and the way processes start are this machine's.

Run as: python -m tests.system.unlike_macos ARGUMENTS-OF-BENCHLEAF...
"""

import ctypes
import os
import resource
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from tests.system.file_names import ignore_case

LACKING = ("sched_getaffinity", "posix_fadvise", "memfd_create")
CALLS_OF_LINUX = ("renameat2", "syncfs", "prctl")


class _Library:
    def __init__(self, real: Any) -> None:
        self._real = real

    def __getattr__(self, name: str) -> Any:
        if name in CALLS_OF_LINUX:
            raise AttributeError(f"symbol not found: {name}")
        return getattr(self._real, name)


def _without_calls_of_linux(real: Callable[..., Any]) -> Callable[..., Any]:
    def library(name: Any, *rest: Any, **more: Any) -> Any:
        found = real(name, *rest, **more)
        return _Library(found) if name is None else found

    return library


def _refused(*given: object) -> None:
    raise ValueError("current limit exceeds maximum limit")


def _without_proc(real: Callable[..., Any]) -> Callable[..., Any]:
    def read(path: Path, *rest: Any, **more: Any) -> Any:
        if path.parts[:2] == ("/", "proc"):
            raise FileNotFoundError(2, "No such file or directory", str(path))
        return real(path, *rest, **more)

    return read


def become() -> None:
    """From now on this process runs on the stand-in."""
    ctypes.CDLL = _without_calls_of_linux(ctypes.CDLL)  # type: ignore[misc, assignment]
    resource.setrlimit = _refused
    Path.read_text = _without_proc(Path.read_text)  # type: ignore[method-assign]
    for name in LACKING:
        if hasattr(os, name):
            delattr(os, name)
    ignore_case(apart=True)


def main(arguments: Sequence[str]) -> None:
    """One command on the stand-in."""
    become()
    sys.argv = ["benchleaf", *arguments]
    from builder.cli import main as command

    command()


if __name__ == "__main__":
    main(sys.argv[1:])
