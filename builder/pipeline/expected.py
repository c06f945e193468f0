"""How long jobs take, roughly: what decides whether processes are started for them."""

from collections.abc import Iterable
from types import MappingProxyType

# Seconds of one core for a job of a kind, on a machine of some years ago, for builds like the
# demo's. Only their ratios to each other and to the start of a process count. A picture may be
# large, and is taken for a large one.
_SECONDS = MappingProxyType(
    {
        "build": 0.7,
        "choose": 3.0,
        "compare": 0.5,
        "given": 0.01,
        "guide": 0.6,
        "part": 0.01,
        "pdf": 8.0,
        "pictures": 1.0,
        "reference": 1.0,
        "source": 0.1,
        "tables": 0.1,
    }
)


def expected_seconds(jobs: Iterable[str]) -> tuple[float, ...]:
    """For each job, by its name."""
    return tuple(_SECONDS[name.partition(":")[0]] for name in jobs)
