"""How much a workspace may hold and ask for. A build file is passed around and copied from
strangers.

Settable in site.yaml under `at_most` only: the publisher's own file. No build can raise its own
limits.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace


def _most(number: int, what: str) -> int:
    """A limit's default, with the words of the reference."""
    made: int = field(default=number, metadata={"what": what})
    return made


@dataclass(frozen=True, slots=True)
class Limits:
    """Upper bounds, all in one place; each one is a key of `at_most` and a line of the reference."""

    file_kilobytes: int = _most(512, "size of a source file, kB")
    values: int = _most(50_000, "values in a file")
    depth: int = _most(24, "levels of nesting in a file")
    text: int = _most(20_000, "characters of a text")
    builds: int = _most(5_000, "builds of a workspace")
    bases: int = _most(12, "builds in a chain of based_on")
    shelf_files: int = _most(500, "files of the shelf")
    shelf_parts: int = _most(5_000, "parts on the shelf")
    parts: int = _most(120, "parts of a build, by key")
    pieces: int = _most(300, "pieces of all parts of a build")
    wires: int = _most(250, "wires of a build")
    entries: int = _most(500, "entries of any other list of a build or a part")
    pictures: int = _most(100, "pictures of a build")
    picture_kilobytes: int = _most(40_000, "size of a picture's file, kB")
    picture_megapixels: int = _most(40, "pixels of a picture, millions; twice as many of a JPEG")
    drawing_kilobytes: int = _most(1_000, "size of an SVG picture, kB")
    drawing_shapes: int = _most(5_000, "elements of an SVG picture")
    drawing_drawn: int = _most(
        20_000, "elements that an SVG picture draws, with all that it draws again"
    )
    chapters: int = _most(60, "chapters of a guide")
    chapter_kilobytes: int = _most(64, "size of a chapter's file, kB")
    files: int = _most(40, "files that a build gives along")
    given_kilobytes: int = _most(20_000, "size of a file that is given along, kB")
    paper_kilobytes: int = _most(4_000, "HTML that one PDF is made from, kB")
    seconds: int = _most(120, "seconds for the pages, the PDF or one picture of a build")
    worker_megabytes: int = _most(4_000, "address space of one worker process, MB")

    def changed(self, written: object) -> "Limits":
        """These limits with the whole numbers of a site.yaml's `at_most`; what is no number there
        the model says.
        """
        if not isinstance(written, Mapping):
            return self
        names = {f.name for f in fields(self)}
        texts = {k: v for k, v in written.items() if k in names and isinstance(v, str)}
        given = {k: int(v) for k, v in texts.items() if v.isdecimal() and len(v) < 7}
        return replace(self, **{k: v for k, v in given.items() if v > 0})


DEFAULT_LIMITS = Limits()


def limit_words() -> tuple[tuple[str, int, str], ...]:
    """Name, default and meaning of every limit, for the reference."""
    return tuple(
        (f.name, getattr(DEFAULT_LIMITS, f.name), f.metadata["what"]) for f in fields(Limits)
    )
