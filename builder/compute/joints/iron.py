"""The iron of the builder, and its power."""

from builder.model.build import Build, FittedAs
from builder.model.kinds import Tool


def fitted_iron(build: Build) -> FittedAs[Tool] | None:
    """The builder's iron: the first tool that names its tips."""
    return next((f for f in build.of_kind(Tool) if f.part.tips is not None), None)


def iron_of(build: Build) -> Tool | None:
    """The builder's iron, as the shelf knows it."""
    iron = fitted_iron(build)
    return iron.part if iron is not None else None


def iron_power(build: Build) -> float | None:
    """Watts of the builder's iron, if a tool says so."""
    iron = iron_of(build)
    return iron.power.value if iron is not None and iron.power is not None else None
