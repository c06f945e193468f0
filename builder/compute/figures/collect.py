"""Every figure that results hold, found by walking the frozen objects, and everything that those
figures rest on.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, derivations

# Objects that hold figures: those of compute, and what rules tried with them. The model holds none.
_OURS = ("builder.compute", "builder.rules")
_PLAIN = (str, int, float, bool, type(None))


@cache
def _looked_into(kind: type) -> Callable[[Any], Iterable[object]] | None:
    """What gives the values inside an object of this class that may hold figures; None for a class
    that holds none.
    """
    if issubclass(kind, _PLAIN):
        return None
    if issubclass(kind, Mapping):
        return kind.values
    if issubclass(kind, tuple | list | frozenset):
        return iter
    names = (
        [f.name for f in fields(kind)]
        if is_dataclass(kind) and kind.__module__.startswith(_OURS)
        else []
    )
    return (lambda value: [getattr(value, n) for n in names]) if names else None


def _gather(value: object, seen: set[int], found: list[MaybeFigure]) -> None:
    """Figures and unknowns inside a value, in the order in which its fields stand; nothing is
    looked into twice.
    """
    kind: type = type(value)
    inside = _looked_into(kind)
    if inside is None or id(value) in seen:
        return
    seen.add(id(value))
    for inner in inside(value):
        kind = type(inner)
        if kind is Figure or kind is Unknown:
            found.append(inner)  # type: ignore[arg-type]  # its class was just looked at; isinstance would take as long as all the rest
        elif kind not in _PLAIN:
            _gather(inner, seen, found)


def all_within(results: object) -> tuple[MaybeFigure, ...]:
    """Every figure and unknown that the results hold, in the order in which their fields stand."""
    found: list[MaybeFigure] = []
    _gather(results, set(), found)
    return tuple(found)


def all_figures(found: Iterable[MaybeFigure]) -> tuple[Figure, ...]:
    """The figures among these with their derivations, inputs before what uses them, one a key."""
    figures: dict[str, Figure] = {}
    for figure in derivations(k for k in found if isinstance(k, Figure)):
        figures.setdefault(figure.key, figure)
    return tuple(figures.values())


def all_unknown(found: Iterable[MaybeFigure]) -> tuple[Unknown, ...]:
    """What of these is not known, one a key."""
    return tuple({k.key: k for k in found if isinstance(k, Unknown)}.values())
