"""What the pictures of a build hold, and which of them cannot be read."""

from pathlib import Path

from builder.diagnostics.finding import Finding, mistake
from builder.load.limits import Limits
from builder.load.one_file import NotRead
from builder.load.pictures import read_picture
from builder.pages.site.picture_files import PictureFile


def pictures_of(
    build: str, files: tuple[PictureFile, ...], root: Path, limits: Limits
) -> tuple[tuple[tuple[PictureFile, bytes], ...], list[Finding]]:
    """The bytes of each picture of a build, and a mistake for each that cannot be read."""
    read, findings = [], []
    for picture in files:
        try:
            read.append((picture, read_picture(root, picture.folder, picture.name, limits)))
        except NotRead as error:
            problem = f"The picture {picture.name}: {error.problem[0].lower()}{error.problem[1:]}"
            findings.append(mistake("data/picture", problem, error.hint, picture.where, build))
    return tuple(read), findings
