"""A file that a build gives along, as it was read: its name, what it is, its size and its digest."""

from builder.diagnostics.where import Where
from builder.frozen import value_class


@value_class(frozen=True, slots=True)
class GivenAlong:
    """`size` in bytes, `digest` the SHA-256 of all of them (FIPS 180-4), in hexadecimal digits."""

    name: str
    what: str
    size: int
    digest: str
    where: Where
