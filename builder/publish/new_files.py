"""Writes sources that were not there before. A file that exists is never touched, not even for an
instant.
"""

import os
import stat
from collections.abc import Iterator, Mapping
from pathlib import Path

from builder.publish.swap import PublishError, locked
from builder.system.links import second_name


def _put(target: Path, text: str) -> None:
    """The whole file under its name or nothing: written aside, then linked, which fails where the
    name is taken.
    """
    aside = target.with_name(f".{target.name}.{os.urandom(8).hex()}")
    try:
        with aside.open("xb") as file:
            file.write(text.encode())
            file.flush()
            os.fsync(file.fileno())
        if not second_name(aside, target):
            with target.open("xb") as file:
                file.write(text.encode())
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


def write_new(workspace: Path, files: Mapping[str, str]) -> None:
    """Writes these files under the workspace, in this order, all or none.

    Raises PublishError where one of them exists or the disk refuses; what was written by then is
    taken back.
    """
    made: list[Path] = []
    try:
        workspace.mkdir(parents=True, exist_ok=True)
        with locked(workspace):
            for name, text in files.items():
                target = workspace / name
                for folder in _folders(workspace, Path(name).parent.parts):
                    made.append(folder)
                _put(target, text)
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
