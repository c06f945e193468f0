"""Notes of a build and its parts, each with the figures and closed words that stand beside it.

Fields are taken from what an object holds, not asked by name: a look at all of them is none that the
register of facts would count as a reader.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal, get_args, get_origin

from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.values.base import Frozen, Sourced
from builder.model.values.measures import Cells, Gauge
from builder.model.values.quantities import Quantity, QuantityRange, parse_any

# What is only true of one day, and says so: the notes of logs.
_LOGS = (
    *("weighed", "flights", "changes", "incidents", "maintenance"),
    *("as_built", "questions", "copies", "origin", "chapters"),
)
_FIGURE = re.compile(r"(?<![\w.,])(\d+(?:[.,]\d+)?)\s?(AWG|[a-zA-ZµΩ°%]{1,4}(?:/[A-Z])?)(?![\w/])")


@dataclass(frozen=True)
class NotedFigure:
    """A figure by what it measures, from the least to the most, and its words."""

    measures: str
    low: float
    high: float
    words: str


@dataclass(frozen=True)
class Noted:
    """A note, what stands beside it under which key, and where it is."""

    note: str
    facts: tuple[tuple[str, object, type[Frozen]], ...]
    where: Where


def figures_in(note: str) -> tuple[NotedFigure, ...]:
    """Figures with a unit in a note, cells and gauges among them."""
    out = []
    for number, unit in _FIGURE.findall(note):
        words, plain = f"{number} {unit}", number.replace(",", ".")
        if unit == "S":
            out.append(NotedFigure("cells", float(plain), float(plain), f"{number}S"))
        elif unit == "AWG":
            out.append(NotedFigure("gauge", float(plain), float(plain), words))
        else:
            try:
                read = parse_any(words)
            except ValueError:
                continue
            out.append(NotedFigure(read.dimension, read.value, read.value, words))
    return tuple(out)


def figures_of(value: object) -> Iterator[NotedFigure]:
    """What a value of the model measures; of several readings each."""
    if isinstance(value, Cells):
        yield NotedFigure("cells", value.low, value.high, "")
    elif isinstance(value, Gauge):
        if value.awg is not None:
            yield NotedFigure("gauge", value.awg, value.awg, "")
    elif isinstance(value, Quantity):
        yield NotedFigure(value.dimension, value.value, value.value, "")
    elif isinstance(value, QuantityRange):
        yield NotedFigure(value.dimension, value.low, value.high, "")
    elif isinstance(value, Sourced):
        yield from (s for v in dict(value).values() for s in figures_of(v))


def choices(cls: type[Frozen], name: str) -> tuple[str, ...]:
    """The closed words of a field; none for any other."""
    field: Any = cls.model_fields[name].annotation
    kinds = (field, *get_args(field))
    return tuple(str(w) for k in kinds if get_origin(k) is Literal for w in get_args(k))


def _facts(value: Frozen) -> tuple[tuple[str, object, type[Frozen]], ...]:
    said, cls = vars(value), type(value)
    return tuple((name, said[name], cls) for name in value.model_fields_set)


def _notes(value: object, path: tuple[str | int, ...]) -> Iterator[tuple[str, Frozen, Any]]:
    if isinstance(value, Frozen):
        said = vars(value)
        note, more = said.get("note"), said.get("notes", ())
        if note is not None:
            yield note, value, (*path, "note")
        yield from ((each, value, (*path, "notes", i)) for i, each in enumerate(more))
        for name in value.model_fields_set:
            if name not in _LOGS:
                yield from _notes(said[name], (*path, name))
    elif isinstance(value, Mapping):
        for key, each in value.items():
            yield from _notes(each, (*path, key))
    elif isinstance(value, tuple):
        for i, each in enumerate(value):
            yield from _notes(each, (*path, i))


def noted(build: Build) -> Iterator[Noted]:
    """Every note but those of logs; with the note of a part in its place, what the shelf says too."""
    used = {("parts", f.key): f.part for f in build.parts.values()}
    used |= {("packs", p.key): p.part for p in build.packs.values()}
    for note, owner, path in _notes(build.source, ()):
        part = used.get(path[:-1])
        facts = (*_facts(owner), *(_facts(part) if part is not None else ()))
        yield Noted(note, facts, build.where(*path))
    shelf = {f.shelf: (f.part, f.shelf_where) for f in build.parts.values()}
    shelf |= {p.shelf: (p.part, p.shelf_where) for p in build.packs.values()}
    for part, where in shelf.values():
        for note, owner, path in _notes(part, ()):
            yield Noted(note, _facts(owner), where.at(*path))
