"""`superseded_by`: the build that took the place of one; it is there, and no two took each other's."""

from collections.abc import Mapping
from typing import Any

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Where

_KEY = "superseded_by"
Trees = Mapping[str, Mapping[str, Any]]


def _comes_back(name: str, trees: Trees) -> bool:
    """Whether who follows the successors of a build comes back to it."""
    seen: set[str] = set()
    at = trees[name].get(_KEY)
    while isinstance(at, str) and at in trees and at not in seen:
        if at == name:
            return True
        seen.add(at)
        at = trees[at].get(_KEY)
    return False


def wrong_successor(name: str, trees: Trees) -> tuple[Finding, ...]:
    """A mistake for a successor that is no build of this workspace, or that leads back."""
    said = trees[name].get(_KEY)
    if said is None or not isinstance(said, str):
        return ()
    where = Where(f"{name}/build.yaml", (_KEY,))
    if said not in trees:
        problem, known = f"There is no build {said!r}.", [n for n in trees if n != name]
        return (mistake("data/no-such-build", problem, did_you_mean(said, known), where),)
    if _comes_back(name, trees):
        problem = f"{name!r} and {said!r} would have taken each other's place."
        return (mistake("data/circle-of-bases", problem, "Take one of the two out.", where),)
    return ()
