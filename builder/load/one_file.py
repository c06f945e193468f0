"""Reads one file of the workspace and nothing else: no pipe or device, nothing outside, never more
than allowed.
"""

import errno
import os
import stat
from pathlib import Path, PurePath

from builder.system.links import leads_elsewhere
from builder.system.opening import open_to_read


class NotRead(Exception):
    """A file that is not read, with the code of the mistake, why, and how to fix it."""

    def __init__(self, code: str, problem: str, hint: str) -> None:
        self.code, self.problem, self.hint = code, problem, hint
        super().__init__(problem)


def why(error: OSError) -> str:
    """An operating system's error in a few words."""
    return error.strerror or type(error).__name__


def _unreadable(reason: str, hint: str = "Check that it exists and may be read.") -> NotRead:
    return NotRead("data/unreadable", f"This file cannot be read: {reason}.", hint)


def _inside(home: Path, steps: tuple[str, ...]) -> bool:
    """Whether a path below `home` stays there: no step of it is a link, or all links lead inside."""
    path = os.fspath(home)
    for step in steps:
        path = f"{path}{os.sep}{step}"
        if not leads_elsewhere(path):
            continue
        real = os.path.realpath(home)
        return os.path.realpath(home.joinpath(*steps)).startswith(real.rstrip(os.sep) + os.sep)
    return True


def read_one(home: Path, name: str, kilobytes: int) -> bytes:
    """The bytes of a plain file below `home`, by its path there. NotRead says why not; a pipe is
    never waited for.
    """
    path, steps = home / name, PurePath(name).parts
    try:
        if not _inside(home, steps):
            raise _unreadable("it is a link that leads outside", "Put the file itself there.")
        handle = open_to_read(path, links=True)
        with os.fdopen(handle, "rb") as file:
            about = os.fstat(file.fileno())
            if not stat.S_ISREG(about.st_mode):
                raise _unreadable("it is no plain file")
            most = kilobytes * 1024
            content = file.read(most + 1) if about.st_size <= most else b""
            size = max(about.st_size, len(content))
            if size > most:
                problem = f"This file is {size} bytes long; at most {most} are read."
                raise NotRead("data/too-large", problem, "Make it smaller or split it.")
            return content
    except ValueError as error:  # a name that no file can have
        raise _unreadable("no file can have this name") from error
    except OSError as error:
        raise _unreadable(
            "its links lead in a circle" if error.errno == errno.ELOOP else why(error)
        ) from error


def decoded_text(raw: bytes) -> str:
    """The text of a file's bytes, its lines ended by line feeds alone. NotRead where it is not UTF-8."""
    try:
        return raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        problem = f"Line {line} is not UTF-8 (byte {raw[error.start]:#04x})."
        raise NotRead("data/unreadable", problem, "Save the file as UTF-8.") from None
