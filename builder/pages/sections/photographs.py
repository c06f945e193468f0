"""Pictures of the build that its builder lists, each with what it shows and the side that is seen."""

from builder.model.source.build_source import Photo
from builder.pages.blocks import Picture, PictureMark, Section
from builder.pages.sheet_input import SheetInput


def _caption(photo: Photo) -> str:
    """What the builder says of it, and the side that is seen."""
    side = f"Side: {photo.side}." if photo.side else ""
    return " ".join(words for words in (photo.caption, side) if words)


def picture_marks(photo: Photo) -> tuple[PictureMark, ...]:
    """The points of a picture that are told beside it."""
    return tuple(PictureMark(m.at.x, m.at.y, m.text) for m in photo.marks)


def photographs(sheet: SheetInput) -> Section:
    """All pictures in the order in which they are listed; empty for a build without any."""
    name = sheet.build.name
    shown = tuple(
        Picture(f"{name}/{photo.file}", photo.alt, _caption(photo), marks=picture_marks(photo))
        for photo in sheet.build.source.photos
    )
    return Section("photographs", "Photographs", shown)
