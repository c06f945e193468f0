"""A picture that a builder lists, as the pages show it."""

from builder.model.build import Build
from builder.model.source.build_source import Photo
from builder.pages.blocks import Picture, PictureMark


def _caption(photo: Photo) -> str:
    """What the builder says of it, and the side that is seen."""
    side = f"Side: {photo.side}." if photo.side else ""
    return " ".join(words for words in (photo.caption, side) if words)


def _marks(photo: Photo) -> tuple[PictureMark, ...]:
    """The points of a picture that are told beside it."""
    return tuple(PictureMark(m.at.x, m.at.y, m.text) for m in photo.marks)


def photograph(build: Build, photo: Photo) -> Picture:
    """One picture with its words."""
    address = f"{build.name}/{photo.file}"
    return Picture(address, photo.alt, _caption(photo), marks=_marks(photo))
