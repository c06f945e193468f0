"""Pictures of the build that its builder lists, each with what it shows, the side that is seen, and
the step at which it was taken.
"""

from collections.abc import Iterator
from dataclasses import replace

from builder.model.source.build_along import Photo
from builder.pages.blocks import Picture, Section
from builder.pages.sheet_input import SheetInput
from builder.pages.work.as_built import step_place
from builder.pages.work.photograph import photograph


def _place(sheet: SheetInput, photo: Photo) -> str:
    """The step at which it was taken, by its number."""
    if not photo.step:
        return ""
    place = step_place(sheet, photo.step)
    return f"{place[:1].upper()}{place[1:]}."


def _shown(sheet: SheetInput) -> Iterator[Picture]:
    for photo in sheet.build.source.photos:
        picture = photograph(sheet.build, photo)
        words = (picture.caption, _place(sheet, photo))
        yield replace(picture, caption=" ".join(w for w in words if w))


def photographs(sheet: SheetInput) -> Section:
    """All pictures in the order in which they are listed; empty for a build without any."""
    return Section("photographs", "Photographs", tuple(_shown(sheet)))
