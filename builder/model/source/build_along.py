"""What is given along with a build, as a person writes it: pictures, a recording, files, its origin."""

from pydantic import field_validator

from builder.model.source.electrical import Names
from builder.model.values.base import Frozen
from builder.model.values.bounds_of_bodies import Dated
from builder.model.values.mistaken import wrong
from builder.model.values.picture_places import PicturePlace
from builder.model.values.quantities import Address, GivenFileName, PictureName, Text


class Chapter(Frozen):
    """A time stamp of a recording that goes with the build."""

    at: Text  #: time in the recording, minutes:seconds
    text: Text  #: what happens there
    steps: Names = ()  #: steps of the work that are seen there; each leads to it


class GivenFile(Frozen):
    """A file that the build gives along: settings, a shape to print."""

    name: GivenFileName  #: its name on the site, and in a chapter's links: files:NAME
    what: Text  #: what it is, and what it is for
    file: Text  #: where it is, below the build's folder


MOST_MARKS = 6  # whose words fit beside a picture on a phone


class PhotoMark(Frozen):
    """A point of a picture that words beside it tell of."""

    at: PicturePlace  #: from the left edge and from the top edge, in shares of the picture
    text: Text  #: what is there, in a few words


class Photo(Frozen):
    """A picture of the build."""

    file: PictureName  #: a file in the build's folder
    alt: Text  #: what it shows, in words
    side: Text | None = None  #: the side seen
    caption: Text | None = None  #: words under it
    step: Text | None = None  #: the step of the work at which it was taken
    #: points to which thin lines lead from words beside the picture, six at most
    marks: tuple[PhotoMark, ...] = ()

    @field_validator("marks", mode="after")
    @classmethod
    def _few(cls, value: tuple[PhotoMark, ...]) -> tuple[PhotoMark, ...]:
        """More words than six do not fit beside a picture on a phone."""
        if len(value) > MOST_MARKS:
            problem = (
                f"Here stand {len(value)} marks; beside a picture there is room for {MOST_MARKS}."
            )
            raise wrong("data/wrong-shape", problem, "Leave some out, or list the picture twice.")
        return value


class Origin(Frozen):
    """A published build that this one was started from, and what its giver said of their own
    aircraft: words, which no figure reads.
    """

    title: Text  #: title of the build that was given
    build: Text | None = None  #: its name on the giver's site
    author: Text | None = None  #: who gave it
    licence: Text | None = None  #: under which licence
    site: Text | None = None  #: title of the giver's site
    address: Address | None = None  #: where that site is
    revised: Dated | None = None  #: the day of its last change
    invented: Text | None = None  #: yes, or words, if it was never made
    digest: Text | None = None  #: digest of the files that were given
    guide: Text | None = None  #: titles of the chapters of their guide
    chapters: Names = ()  #: chapters of the guide that were begun from theirs; each says so
    #: what its giver weighed, flew, tested and accepted, in words; it counts for nothing here
    history: tuple[Text, ...] = ()
