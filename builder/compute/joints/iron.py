"""The iron of the builder, and its power."""

from builder.model.build import Build
from builder.model.kinds import Tool


def iron_of(build: Build) -> Tool | None:
    """The builder's iron: the first tool that names its tips."""
    tools = (f.part for f in build.of_kind(Tool))
    return next((t for t in tools if t.tips is not None), None)


def iron_power(build: Build) -> float | None:
    """Watts of the builder's iron, if a tool says so."""
    iron = iron_of(build)
    return iron.power.value if iron is not None and iron.power is not None else None
