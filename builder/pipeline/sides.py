"""The two sides of a comparison. A build is compared with several others one after the other, and
is judged once for them.
"""

from dataclasses import dataclass, field
from functools import lru_cache

from builder.model.build import Build
from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import judged_alone


@dataclass(frozen=True)
class _Told:
    """A build that equals every other one of the same digest: pages are made from nothing else of
    it.
    """

    name: str
    digest: str
    build: Build = field(compare=False)


@lru_cache(maxsize=2)  # the two of the last pair; each process has its own
def _judged(told: _Told, draft: bool) -> SheetInput:
    return judged_alone(told.build, draft=draft)


def side(build: Build, *, draft: bool) -> SheetInput:
    """A build, computed and judged; as it was for the last pair, if it was one of that."""
    return _judged(_Told(build.name, build.digest, build), draft)
