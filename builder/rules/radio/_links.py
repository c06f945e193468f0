"""What radio rules share: the links of a build, with where each is set."""

from collections.abc import Iterator

from builder.compute.radio.link import Link
from builder.diagnostics.where import Where
from builder.rules.rule import Case


def links(case: Case) -> Iterator[tuple[Link, Where]]:
    """Each link of the setup, and its place in the build file."""
    found = case.results.settings.radio
    if found.video is not None:
        yield found.video, case.build.where("setup", "channel")
    if found.control is not None:
        yield found.control, case.build.where("setup", "control")
