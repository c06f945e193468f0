"""How much a source file may hold. A build file is passed around and copied from strangers."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """Upper bounds on one workspace's sources; each one is stated in the reference."""

    file_bytes: int = 512 * 1024
    values: int = 50_000
    depth: int = 24
    text: int = 20_000
    line: int = 100_000
    builds: int = 5_000
    shelf_files: int = 500
    entries: int = 5_000


DEFAULT_LIMITS = Limits()
