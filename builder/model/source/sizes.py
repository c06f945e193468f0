"""A build may be only so large: its lists are counted in the text as written, before anything is
made of them.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import KeyPath, Origins
from builder.load.limits import Limits

_HINT = "Split the build, or let the publisher raise the limit in site.yaml, under at_most."


def _lists(tree: Any, path: KeyPath) -> Iterator[tuple[KeyPath, int]]:
    """Every list and group of a tree with its length."""
    if isinstance(tree, Mapping | list):
        yield path, len(tree)
        for step, child in tree.items() if isinstance(tree, Mapping) else enumerate(tree):
            yield from _lists(child, (*path, step))


def _uses(group: object) -> list[Any]:
    """The entries of a group, by key or in a list."""
    if isinstance(group, Mapping):
        return list(group.values())
    return group if isinstance(group, list) else []


def _pieces(tree: Mapping[str, Any]) -> int:
    """How many pieces all parts have together, as far as they can be counted."""
    total = 0
    for group, keys in (
        ("parts", ("count", "spares")),
        ("packs", ("count", "series", "parallel")),
        ("screws", ("count",)),
    ):
        for use in _uses(tree.get(group)):
            given: list[Any] = ["1"]
            if isinstance(use, Mapping):
                given = [use.get(k, "1" if k == "count" else "0") for k in keys]
            total += sum(
                int(g) for g in given if isinstance(g, str) and g.isdecimal() and len(g) < 10
            )
    return total


def _pictures(tree: Mapping[str, Any]) -> int:
    steps, photos = tree.get("steps"), tree.get("photos")
    of_steps = (
        sum("photo" in s for s in steps if isinstance(s, Mapping)) if isinstance(steps, list) else 0
    )
    return of_steps + (len(photos) if isinstance(photos, list) else 0) + ("hero" in tree)


def too_many(tree: Mapping[str, Any], origins: Origins, limits: Limits) -> tuple[Finding, ...]:
    """What a build has more of than is allowed."""
    bounds: dict[KeyPath, tuple[str, int]] = {
        ("parts",): ("parts", limits.parts),
        ("wires",): ("wires", limits.wires),
    }
    found = []
    for path, count in _lists(tree, ()):
        what, most = bounds.get(path, ("entries", limits.entries))
        if count > most:
            problem = f"Here stand {count} {what}; at most {most} are taken."
            found.append(mistake("data/too-large", problem, _HINT, origins.where(path)))
    counts = (
        ("parts", _pieces(tree), "pieces", limits.pieces),
        ("photos", _pictures(tree), "pictures", limits.pictures),
    )
    for key, count, what, most in counts:
        if count > most:
            problem = f"This build has {count} {what}; at most {most} are taken."
            found.append(
                mistake(
                    "data/too-large", problem, _HINT, origins.where((key,) if key in tree else ())
                )
            )
    return tuple(found)
