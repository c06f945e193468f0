"""A site is exchanged piece by piece, where the system moves no folder in which a program holds a
file open: a paper in a viewer, say.
"""

import os
from contextlib import suppress
from pathlib import Path


def exchange_entries(stage: Path, site: Path, old: Path) -> tuple[str, ...]:
    """Puts each thing at the top of the stage in the place of its like in the site, and what was
    there into `old`, which is made. What is held open stays as it was.

    The addresses of the files that are held, sorted. What lies beside them and is in the site no
    longer goes all the same, so that the new manifest names all that is there.
    """
    old.mkdir()
    names = {entry.name for folder in (site, stage) for entry in folder.iterdir()}
    held: list[Path] = []
    for name in sorted(names):
        try:
            _exchange(stage / name, site / name, old / name)
        except PermissionError:
            held += _held_in(site / name)
            _drop_what_has_gone(stage / name, site / name)
    return tuple(sorted(path.relative_to(site).as_posix() for path in held))


def _exchange(new: Path, there: Path, old: Path) -> None:
    """PermissionError where what is there is held; it lies as it lay, then."""
    moved = os.path.lexists(there)
    if moved:
        there.rename(old)
    if not os.path.lexists(new):
        return
    try:
        new.rename(there)
    except OSError:
        if moved:
            old.rename(there)
        raise


def _drop_what_has_gone(new: Path, there: Path) -> None:
    for path in [path for path in there.rglob("*") if path.is_file()]:
        if not os.path.lexists(new / path.relative_to(there)):
            with suppress(PermissionError):
                path.unlink()


def _held_in(lies: Path) -> list[Path]:
    """The files that cannot be moved: a file that is held is not even renamed to its own name."""
    files = [path for path in lies.rglob("*") if path.is_file()] if lies.is_dir() else [lies]
    return [path for path in files if _is_held(path)] or [lies]


def _is_held(path: Path) -> bool:
    try:
        path.replace(path)
    except PermissionError:
        return True
    return False
