"""Writes sources that were not there before. A file that exists is never touched, not even for an
instant.
"""

import os
import stat
from collections.abc import Iterator, Mapping
from pathlib import Path

from builder.publish.plain_files import replace_plain
from builder.publish.swap import PublishError, locked
from builder.system.links import second_name


def _put(target: Path, content: bytes) -> None:
    """The whole file under its name or nothing: written aside, then linked, which fails where the
    name is taken.
    """
    aside = target.with_name(f".{target.name}.{os.urandom(8).hex()}")
    try:
        with aside.open("xb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if not second_name(aside, target):
            with target.open("xb") as file:
                file.write(content)
    finally:
        aside.unlink(missing_ok=True)


def _folders(home: Path, steps: tuple[str, ...]) -> Iterator[Path]:
    """Makes the folders that lead down from `home` and are not there, each given once it is. No
    link is followed.
    """
    for i in range(len(steps)):
        folder = home.joinpath(*steps[: i + 1])
        try:
            folder.mkdir()
        except FileExistsError:
            if not stat.S_ISDIR(folder.lstat().st_mode):
                shown = "/".join(steps[: i + 1])
                problem = f"Writing the new build failed: `{shown}` is a link or no folder."
                raise PublishError(problem, "Nothing was changed; put a folder there.") from None
        else:
            yield folder


def replace_one(workspace: Path, name: str, content: bytes) -> None:
    """A file of the workspace whole in the place of what is there; no link on the way is followed."""
    home, steps = workspace, Path(name).parent.parts
    for i in range(len(steps)):
        if not stat.S_ISDIR(home.joinpath(*steps[: i + 1]).lstat().st_mode):
            raise PublishError(f"`{name}` is not below folders.", "Put folders there, no links.")
    try:
        with locked(workspace):
            replace_plain(home / name, content, durable=True)
    except OSError as error:
        problem = f"Writing {name} failed: {error.strerror or error}."
        raise PublishError(problem, "The file is as it was.") from error


def write_new(workspace: Path, files: Mapping[str, str | bytes]) -> None:
    """Writes these files under the workspace, in this order, all or none.

    Raises PublishError where one of them exists or the disk refuses; what was written by then is
    taken back.
    """
    made: list[Path] = []
    try:
        workspace.mkdir(parents=True, exist_ok=True)
        with locked(workspace):
            for name, given in files.items():
                content = given.encode() if isinstance(given, str) else given
                target = workspace / name
                for folder in _folders(workspace, Path(name).parent.parts):
                    made.append(folder)
                _put(target, content)
                made.append(target)
    except (OSError, PublishError) as error:
        for path in reversed(made):
            path.rmdir() if path.is_dir() else path.unlink(missing_ok=True)
        if isinstance(error, FileExistsError):
            raise PublishError(
                "One of the files exists by now; nothing was changed.", "Try again."
            ) from error
        if isinstance(error, OSError):
            problem = f"Writing the new build failed: {error.strerror or error}."
            raise PublishError(
                problem, "Nothing was changed; check who owns the folder and what room is left."
            ) from error
        raise
