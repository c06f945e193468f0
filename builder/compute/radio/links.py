"""Radio of a build: the links that its setup speaks of."""

from dataclasses import dataclass

from builder.compute.radio.control_link import control_link
from builder.compute.radio.link import Link
from builder.compute.radio.video_link import video_link
from builder.model.build import Build


@dataclass(frozen=True, eq=False)
class RadioLinks:
    """The links that the build's setup speaks of."""

    video: Link | None
    control: Link | None


def radio(build: Build) -> RadioLinks:
    """The build's links. What leaves an antenna of unknown gain is unknown, never guessed."""
    return RadioLinks(video_link(build), control_link(build))
