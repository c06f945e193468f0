"""What stands at the head of every page of a build that is not built any more."""

from builder.model.build import Build
from builder.pages.blocks import Span


def retired_banner(build: Build) -> tuple[Span, ...]:
    """Why, and what to build instead; nothing for a build that still is."""
    source = build.source
    other = source.superseded_by
    if source.status != "retired" and other is None:
        return ()
    why = (source.retired_because or "").strip()
    said = f"Retired. {why}" if why else "Retired: it is not built any more."
    if said[-1] not in ".!?":
        said += "."
    if other is None:
        return (Span(said),)
    return (Span(f"{said} Its place took "), Span(other, f"{other}/index.html"), Span("."))


def retired_in_words(status: str, other: str) -> str:
    """The same without the reason, as one line of words; '' for a build that still is."""
    if status != "retired" and not other:
        return ""
    return f"Retired. Its place took {other}." if other else "Retired."


def retired_of_pair(first: Build, second: Build) -> tuple[Span, ...]:
    """The same where two builds are put side by side, each by its title."""
    said: list[Span] = []
    for build in (first, second):
        banner = retired_banner(build)
        if banner:
            said += [Span(f" {build.title}: " if said else f"{build.title}: "), *banner]
    return tuple(said)
