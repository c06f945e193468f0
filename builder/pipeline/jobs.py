"""The work of a publish as pure functions of frozen values: what goes in decides every byte that
comes out.

A worker gets a job as a value and gives bytes back; it shares no disk and no state with its parent.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from builder.diagnostics.finding import Finding, mistake
from builder.load.limits import Limits
from builder.model.build import ShelfEntry
from builder.pages.sheet_input import SheetInput
from builder.pages.site.part_page import part_file, part_page
from builder.pages.site.picture_files import PictureFile, sized_picture
from builder.pages.site.site_pages import SitePages
from builder.pipeline.part_jobs import WantedPart
from builder.publish.workers.pool import Maker
from builder.render.html.page import Renderer
from builder.render.pictures.published import BadPicture, published_in_widths

Files = dict[str, bytes]
PictureSizes = Mapping[str, tuple[int, int]]  # width and height in pixels, by address


@dataclass(frozen=True)
class Made:
    """What a job gives: files by address, plain values for the manifest, and what was found on the
    way.

    Without files the build stands still: it has faults that nobody accepted.
    """

    files: Files
    plain: Mapping[str, object] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()


def stands_still(sheet: SheetInput) -> bool:
    """Whether a build has faults that nobody accepted, and is no draft."""
    return bool(sheet.verdict.faults) and not sheet.draft


@dataclass(frozen=True, eq=False)
class PictureJob:
    """One picture of a build, made anew: each has its own bounds, and is kept when another is not
    made.
    """

    build: str
    picture: PictureFile
    content: bytes
    limits: Limits

    def __call__(self) -> Made:
        """Makes it in all its widths; nothing, with a mistake, where it cannot be published."""
        picture = self.picture
        address = f"{self.build}/{picture.name}"
        try:
            made = published_in_widths(picture.name, self.content, self.limits)
        except BadPicture as error:
            problem = (
                f"The picture {picture.folder}/{picture.name}{error.at} cannot be published:"
                f" {error}."
            )
            hint = "Save it again as .png or .jpg, or as a plain .svg drawing."
            found = mistake("data/picture", problem, hint, picture.where, self.build)
            return Made({}, {}, (found,))
        files = {address: made.content}
        for width, content in made.by_width.items():
            there = sized_picture(address, width)
            files[there] = content
        sizes = {address: list(made.size)} if made.by_width else {}
        return Made(files, {"sizes": sizes})


@dataclass(frozen=True, eq=False)
class PartJob:
    """A part of the shelf and the builds that use it; with it what is `given` of it, if anything."""

    entry: ShelfEntry
    wanted: WantedPart
    site: SitePages
    templates: Mapping[str, str]
    given: bytes = b""

    def __call__(self) -> Made:
        """Makes them."""
        w = self.wanted
        page = part_page(self.entry, w.users, w.history, w.names, w.shown)
        file = part_file(self.entry.name)
        lacks = frozenset(() if self.given else (file,))
        made = Renderer(self.templates).page(page, self.site, lacks)
        files = {file: self.given} if self.given else {}
        return Made({page.address: made, **files})


Job = Callable[[], Made]
Wanted = Mapping[
    str, tuple[str, Maker[Made]]
]  # by name of job: the digest of all it depends on, and who makes it
