"""How long jobs take, roughly, which decides whether processes are started for them; and what is said of
one that was stopped because it took more time or memory than it may.
"""

from collections.abc import Iterable
from types import MappingProxyType

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import Where
from builder.load.limits import Limits

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


def too_much(job: str, kind: str, limits: Limits) -> Finding:
    """A job that was stopped because it took more time or memory (`kind`) than it may, as a mistake
    of its build.
    """
    of, _, rest = job.partition(":")
    of_builds = (
        "build",
        "sheet",
        "choose",
        "guide",
        "source",
        "given",
        "pdf",
        "pictures",
        "compare",
    )
    build = rest.split(":")[0] if of in of_builds else ""
    picture = rest.partition(":")[2]
    took = f"{limits.seconds} s" if kind == "time" else f"{limits.worker_megabytes} MB of memory"
    setting = "seconds" if kind == "time" else "worker_megabytes"
    words = {
        "build": "its pages",
        "sheet": "its pages",
        "choose": "its page of swaps",
        "guide": "its guide",
        "source": "its source",
        "given": f"its file {picture}",
        "pdf": "its PDF",
        "pictures": f"its picture {picture}",
    }
    words["compare"] = "its comparison"
    problem = (
        f"Making {words.get(of, job)} took over {took} and was stopped; all others are published."
    )
    hint = (
        f"Make it smaller, or raise {setting} under at_most in site.yaml. `--everything` tries it"
        " again."
    )
    return mistake(
        "data/too-slow", problem, hint, Where(f"{build}/build.yaml") if build else None, build
    )
