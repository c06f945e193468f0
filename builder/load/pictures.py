"""Reads the pictures that a build names: files in its own folder, nowhere else."""

from pathlib import Path, PurePosixPath

from builder.load.limits import Limits
from builder.load.one_file import NotRead, read_one

KINDS = (".svg", ".png", ".jpg", ".jpeg", ".webp")


def read_picture(root: Path, folder: str, name: str, limits: Limits) -> bytes:
    """The bytes of `builds/<folder>/<name>`. NotRead for what is no picture, too large, outside or
    unreadable.
    """
    relative = PurePosixPath(name)
    suffix = relative.suffix.casefold()
    if relative.is_absolute() or ".." in relative.parts or suffix not in KINDS:
        hint = "Name a file of the build's folder that ends in .svg, .png, .jpg or .webp."
        raise NotRead("data/picture", f"{name!r} names no picture of the build's own folder.", hint)
    most = limits.drawing_kilobytes if suffix == ".svg" else limits.picture_kilobytes
    return read_one(root / folder, name, most)
