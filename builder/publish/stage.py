"""The new site while it is made, beside the old one: files are written as they come and never held
in memory.
"""

import errno
import os
import shutil
from collections.abc import Collection, Iterable
from pathlib import Path

from builder.publish.plain_files import is_address, read_plain, write_new_file
from builder.publish.swap import STAGE, explain_error, swap
from builder.system.flush import flush_all, flush_file, flush_folder
from builder.system.links import leads_elsewhere, second_name_or_copy

_MANY = 200  # written files from which flushing the whole file system is quicker than each


class Stage:
    """What was written of the new site. Its folder is there once a file is.

    Each folder in it is made by `mkdir`, which fails where anything lies, and each file where
    nothing is: so nothing is ever written through a link, or anywhere but in here.
    """

    def __init__(self, workspace: Path) -> None:
        self._workspace = workspace
        self._folder = workspace / f"{STAGE}-{os.urandom(8).hex()}"
        self._made: set[str] = set()
        self.written: set[str] = set()

    def _make(self, folder: str) -> None:
        """A folder of the stage and those above it, as text, for a site has ten thousand files."""
        if folder in self._made:
            return
        if folder:
            self._make(folder.rpartition("/")[0])
        os.mkdir(f"{self._folder}/{folder}" if folder else self._folder)  # noqa: PTH102 - as above
        self._made.add(folder)

    def _target(self, path: str) -> str:
        """Where a file goes, in a folder that is there."""
        if not is_address(path):
            raise OSError(errno.EINVAL, f"{path!r} cannot be an address of the site")
        self._make(path.rpartition("/")[0])
        return f"{self._folder}/{path}"

    def put(self, path: str, content: bytes) -> None:
        """Writes a file. PublishError for a full disk and the like; the old site is whole then."""
        try:
            write_new_file(self._target(path), content)
        except OSError as error:
            self.drop()
            raise explain_error(error, "Writing the site") from error
        self.written.add(path)

    def read(self, path: str) -> bytes:
        """A file of the new site: as it was written, or as it lies published."""
        home = self._folder if path in self.written else self._workspace / "site"
        return read_plain(home / path)

    def drop(self) -> None:
        """Removes it."""
        if self._made:
            shutil.rmtree(self._folder, ignore_errors=True)

    def swap_in(self, kept: Iterable[str]) -> tuple[str, ...]:
        """Makes `site/` hold what was written, the published files that are kept, and its
        dot-files, in one step.

        Raises PublishError; the old site is whole then. The addresses of files that another program
        holds, where the system moves no such file: they and what lies beside them are as before.
        """
        site = self._workspace / "site"
        try:
            self._make("")
            site.mkdir(exist_ok=True)
            for path in kept:
                second_name_or_copy(f"{site}/{path}", self._target(path))
            for entry in sorted(site.iterdir()):
                if entry.name.startswith(".") and entry.name not in self.written:
                    _copy(entry, self._folder / entry.name)
            _flush(self._folder, self.written)
            return swap(self._workspace, self._folder)
        except OSError as error:
            self.drop()
            raise explain_error(error, "Writing the site") from error


def _copy(entry: Path, target: Path) -> None:
    if entry.is_dir() and not leads_elsewhere(entry):
        shutil.copytree(entry, target, symlinks=True)
    else:
        shutil.copy2(entry, target, follow_symlinks=False)


def _flush(stage: Path, written: Collection[str]) -> None:
    """Written files and their folders reach the disk before the swap: each, or all at once where
    that is to be had.
    """
    if len(written) > _MANY and flush_all(stage):
        return
    for path in written:
        flush_file(stage / path)
    for folder in {".", *(str(Path(p).parent) for p in written)}:
        flush_folder(stage / folder)
