"""Which of the builder's own steps coat something."""

from builder.model.build import Build
from builder.model.build_source import BuildStep

_WORDS = ("coat", "lacquer", "varnish")


def coating_steps(build: Build) -> tuple[tuple[int, BuildStep], ...]:
    """Own steps that coat, with their number: by their word, in name or text, among steps that cover."""
    return tuple(
        (i, s)
        for i, s in enumerate(build.source.steps)
        if s.do == "cover" and any(w in f"{s.id} {s.text}".casefold() for w in _WORDS)
    )
