"""Reads the pictures that a build names: files in its own folder, nowhere else."""

from pathlib import Path, PurePosixPath

KINDS = (".svg", ".png", ".jpg", ".jpeg", ".webp")
LARGEST = 40_000_000  # bytes of one picture; a camera's largest files are below it


def read_picture(root: Path, folder: str, name: str) -> bytes | None:
    """The bytes of `builds/<folder>/<name>`; None for what is no picture, too large, outside or unreadable."""
    relative = PurePosixPath(name)
    if relative.is_absolute() or ".." in relative.parts or relative.suffix.casefold() not in KINDS:
        return None
    home = root / folder
    path = home / relative
    try:
        if not path.resolve().is_relative_to(home.resolve()) or path.stat().st_size > LARGEST:
            return None
        return path.read_bytes()
    except OSError:
        return None
