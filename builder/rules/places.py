"""Places of findings: by which names one is known, and whether two findings are about one place."""

from builder.diagnostics.finding import Finding
from builder.diagnostics.where import Where
from builder.model.build import Build


def names_of_place(build: Build, where: Where) -> set[str]:
    """Names of a place: its keys, each shorter run of them, and the shelf part that stands there."""
    steps = [str(s + 1) if isinstance(s, int) else s for s in where.path]
    out = {"/".join(steps[: i + 1]) for i in range(len(steps))}
    if len(steps) > 1 and steps[0] == "parts" and steps[1] in build.parts:
        out.add(build.parts[steps[1]].shelf)
    if len(steps) > 1 and steps[0] == "packs" and steps[1] in build.packs:
        out.add(build.packs[steps[1]].shelf)
    return out


def _things(build: Build, finding: Finding) -> set[str]:
    """What a finding is about: shelf parts, and places of build.yaml that are finer than a group."""
    places = [w for w in (finding.where, *finding.see) if w is not None]
    names = {n for where in places for n in names_of_place(build, where)}
    return {n for n in names if "/" in n or n in build.shelf}


def at_one_place(build: Build, one: Finding, other: Finding) -> bool:
    """Whether two findings name a part or a place in common."""
    return bool(_things(build, one) & _things(build, other))
