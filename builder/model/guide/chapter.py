"""A chapter of a build's guide: its words, its headings, and all that it refers to, with the places."""

from typing import Literal

from builder.diagnostics.where import Where
from builder.frozen import value_class

ReferenceKind = Literal["figure", "step", "part", "chapter", "files"]


@value_class(frozen=True, slots=True)
class Heading:
    """A heading below the title: level 2 to 4, and the lines of the file that it stands on."""

    anchor: str
    title: str
    level: int
    first: int
    after: int


@value_class(frozen=True, slots=True)
class Reference:
    """What a chapter names: a figure, a step, a part, another chapter, a file that is given along.

    `anchor` is that of the heading below which it stands; `rest` is what follows a '#', `written`
    the whole destination of a link.
    """

    kind: ReferenceKind
    name: str
    anchor: str
    where: Where
    rest: str = ""
    written: str = ""


@value_class(frozen=True, slots=True)
class ChapterPicture:
    """A picture of a chapter by its path below the build's folder, with what it shows in words."""

    source: str
    file: str
    alt: str
    caption: str
    where: Where


@value_class(frozen=True, slots=True)
class GuideChapter:
    """A chapter. `name` is its folder on the site, which the number before a file's name is not part
    of; `markdown` is what was written, `text` its words alone. `file` is in the folder of a base where
    a variant has no chapters of its own.

    `links` are the destinations of links as they came out of the parser, `definitions` the links that
    are defined at one place for all of the chapter: label, address, title.
    """

    build: str
    name: str
    title: str
    file: str
    markdown: str
    text: str
    headings: tuple[Heading, ...] = ()
    references: tuple[Reference, ...] = ()
    pictures: tuple[ChapterPicture, ...] = ()
    definitions: tuple[tuple[str, str, str], ...] = ()

    @property
    def page(self) -> str:
        """Its address, from the site's root."""
        return chapter_address(self.build, self.name)

    @property
    def writer(self) -> str:
        """The build whose words these are."""
        return self.file.partition("/")[0]

    @property
    def is_inherited(self) -> bool:
        """Whether they are a base's."""
        return self.writer != self.build


def guide_address(build: str) -> str:
    """Where the table of contents of a guide is, from the site's root."""
    return f"{build}/guide/index.html"


def chapter_address(build: str, name: str) -> str:
    """Where a chapter is, from the site's root."""
    return f"{build}/guide/{name}/index.html"
