"""Every figure that results hold, found by walking the frozen objects, and everything that those figures rest on."""

from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from functools import cache

from builder.compute.figure import Figure, Known, Unknown, derivations

# Objects that hold figures: those of compute, and what rules tried with them. The model holds none.
_OURS = ("builder.compute", "builder.rules")


@cache
def _fields_of(kind: type) -> tuple[str, ...]:
    """Names of the fields of a class that may hold figures; none for any other."""
    ours = is_dataclass(kind) and kind.__module__.startswith(_OURS)
    return tuple(f.name for f in fields(kind)) if ours else ()


def _gather(value: object, seen: set[int], found: list[Known]) -> None:
    """Figures and unknowns inside a value, in the order in which its fields stand; nothing is looked into twice."""
    kind: type = type(value)
    if kind is Figure or kind is Unknown:
        found.append(value)  # type: ignore[arg-type]  # its class was just looked at; isinstance would take as long as all the rest
        return
    if kind in (str, int, float, bool, type(None)) or id(value) in seen:
        return
    seen.add(id(value))
    if isinstance(value, Mapping):
        for inner in value.values():
            _gather(inner, seen, found)
    elif isinstance(value, tuple | list | frozenset):
        for inner in value:
            _gather(inner, seen, found)
    else:
        for name in _fields_of(kind):
            _gather(getattr(value, name), seen, found)


def all_within(results: object) -> tuple[Known, ...]:
    """Every figure and unknown that the results hold, in the order in which their fields stand."""
    found: list[Known] = []
    _gather(results, set(), found)
    return tuple(found)


def all_figures(found: Iterable[Known]) -> tuple[Figure, ...]:
    """The figures among these with their derivations, inputs before what uses them, one a key."""
    figures: dict[str, Figure] = {}
    for figure in derivations(k for k in found if isinstance(k, Figure)):
        figures.setdefault(figure.key, figure)
    return tuple(figures.values())


def all_unknown(found: Iterable[Known]) -> tuple[Unknown, ...]:
    """What of these is not known, one a key."""
    return tuple({k.key: k for k in found if isinstance(k, Unknown)}.values())
