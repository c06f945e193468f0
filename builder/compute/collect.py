"""Every figure that results hold, found by walking the frozen objects, and everything that those figures rest on."""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass

from builder.compute.figure import Figure, Known, Unknown

# Objects that hold figures: those of compute, and what rules tried with them. The model holds none.
_OURS = ("builder.compute", "builder.rules")


def _within(value: object, seen: set[int]) -> Iterator[Known]:
    """Figures and unknowns inside a value, in the order in which its fields stand."""
    if isinstance(value, Figure | Unknown):
        yield value
    elif isinstance(value, str | int | float | bool | type(None)) or id(value) in seen:
        return
    elif isinstance(value, Mapping):
        seen.add(id(value))
        for inner in value.values():
            yield from _within(inner, seen)
    elif isinstance(value, tuple | list | frozenset):
        seen.add(id(value))
        for inner in value:
            yield from _within(inner, seen)
    elif is_dataclass(value) and value.__class__.__module__.startswith(_OURS):
        seen.add(id(value))
        for field in fields(value):
            yield from _within(getattr(value, field.name), seen)


def all_figures(results: object) -> tuple[Figure, ...]:
    """All figures of the results with their derivations, inputs before what uses them, one a key."""
    found: dict[str, Figure] = {}
    for figure in _within(results, set()):
        if isinstance(figure, Unknown):
            continue
        for step in figure.derivation:
            found.setdefault(step.key, step)
    return tuple(found.values())


def all_unknown(results: object) -> tuple[Unknown, ...]:
    """What the results say is not known, one a key."""
    found = {u.key: u for u in _within(results, set()) if isinstance(u, Unknown)}
    return tuple(found.values())
