"""A picture that a builder lists, as the pages show it."""

from builder.compute.order.builder_steps import meant
from builder.compute.order.steps.work_step import Gathered
from builder.compute.order.work_order import Cycle, Plan
from builder.model.build import Build
from builder.model.source.build_along import Photo
from builder.pages.blocks import Picture, PictureMark
from builder.pages.sheet_input import SheetInput


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


def photographs_taken(plan: Plan, build: Build) -> dict[str, list[Photo]]:
    """Photographs by the first step that each means."""
    known = Gathered({s.id: s for s in plan.steps})
    out: dict[str, list[Photo]] = {}
    for photo in build.source.photos:
        for name in meant(known, photo.step)[:1] if photo.step else ():
            out.setdefault(name, []).append(photo)
    return out


def photographs_at_gate(sheet: SheetInput, letter: str) -> tuple[Picture, ...]:
    """What was taken at a gate."""
    plan, build = sheet.results.order, sheet.build
    if isinstance(plan, Cycle) or not build.source.photos:
        return ()
    taken = photographs_taken(plan, build)
    own = (photo for s in plan.steps if s.gate == letter for photo in taken.get(s.id, ()))
    return tuple(photograph(build, photo) for photo in own)
