"""Which picture files a build's pages show, and whose folder each lies in."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.guide.chapter import GuideChapter

_NARROWER = (480, 960)  # pixels: a phone, and a screen of twice as many pixels


@dataclass(frozen=True, slots=True, order=True)
class PictureFile:
    """A picture by the build's folder that holds it (a base's, if it was inherited) and its name
    there.
    """

    folder: str
    name: str
    where: Where = field(compare=False)

    def as_plain(self) -> list[object]:
        """Plain values, for the manifest."""
        return [self.folder, self.name, self.where.file, list(self.where.path)]

    @classmethod
    def from_plain(cls, plain: Sequence[Any]) -> "PictureFile":
        """What `as_plain` wrote. ValueError or TypeError for anything else."""
        folder, name, file, path = plain
        return cls(str(folder), str(name), Where(str(file), tuple(path)))


def picture_files(build: Build) -> tuple[PictureFile, ...]:
    """Every picture once, in order. A page shows it at `<build>/<name>` whoever's folder holds the
    file.
    """
    source = build.source
    found = [(source.hero.file, build.where("hero", "file"))] if source.hero is not None else []
    found += [
        (photo.file, build.where("photos", i, "file")) for i, photo in enumerate(source.photos)
    ]
    found += [
        (step.photo, build.where("steps", i, "photo"))
        for i, step in enumerate(source.steps)
        if step.photo
    ]
    return tuple(
        sorted({PictureFile(where.file.split("/")[0], name, where) for name, where in found})
    )


def guide_pictures(chapters: Iterable[GuideChapter]) -> tuple[PictureFile, ...]:
    """Every picture that the chapters of a build show, once, in order."""
    found = {PictureFile(c.writer, p.file, p.where) for c in chapters for p in c.pictures}
    return tuple(sorted(found))


def printed_pictures(build: Build, chapters: Iterable[GuideChapter] = ()) -> tuple[str, ...]:
    """Addresses of the pictures that are printed too, each once: the build's own, those of steps and
    of the chapters that are printed.
    """
    source = build.source
    names = [source.hero.file] if source.hero is not None else []
    names += [step.photo for step in source.steps if step.photo]
    names += [picture.file for chapter in chapters for picture in chapter.pictures]
    return tuple(dict.fromkeys(f"{build.name}/{name}" for name in names))


def picture_widths(width: int) -> tuple[int, ...]:
    """The widths in pixels in which a photograph of that width is published, its own the last."""
    return (*(w for w in _NARROWER if w < width), width)


def narrowest(sizes: Mapping[str, tuple[int, int]]) -> dict[str, str]:
    """Where each photograph lies in its narrowest width, by its address. `sizes` are width and
    height of each.
    """
    found: dict[str, str] = {}
    for address, (width, _) in sizes.items():
        least = min(picture_widths(width))
        found[address] = sized_picture(address, least)
    return found


def sized_picture(address: str, width: int) -> str:
    """Where a photograph lies in one of its widths."""
    build, _, name = address.partition("/")
    return f"{build}/widths/{name}-{width}.webp"
