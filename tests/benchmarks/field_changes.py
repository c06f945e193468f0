"""Other values of fields: each field of a build set to another value, one at a time."""

import dataclasses
from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from typing import Any, Literal, get_args, get_origin

from builder.model.build import Build
from builder.model.values.base import Frozen
from builder.model.values.quantities import Quantity
from builder.rules.field_register import owner_of

_ITEMS = 8  # of a list or a group of named things


def _with(of: Any, **fields: Any) -> Any:
    """A frozen object with other fields."""
    return dataclasses.replace(of, **fields)


def _choices(annotation: Any) -> tuple[Any, ...]:
    """The values of a choice, wherever it stands in an annotation."""
    if get_origin(annotation) is Literal:
        return get_args(annotation)
    return tuple(v for a in get_args(annotation) for v in _choices(a))


def _numbers(value: float) -> Iterator[float]:
    """More and less of a plain number; a count stays a count."""
    if isinstance(value, int):
        yield from (value + 1, *((value - 1, 1) if value > 1 else ()))
    else:
        yield from (1.5 * value, 0.6 * value, value + 1.0)


def others(value: Any, annotation: Any = None) -> Iterator[Any]:
    """Other values that a field may have; none for one that is not said."""
    if isinstance(value, bool):
        yield not value
    elif isinstance(value, Quantity):
        by = (1.5, 0.6, 4.0, 0.1, 30.0) if value.value else ()
        yield from (_with(value, value=value.value * x) for x in by)
        if not value.value:
            yield _with(value, value=1e-3)
    elif isinstance(value, int | float):
        yield from _numbers(value)
    elif isinstance(value, str):
        choices = [c for c in _choices(annotation) if c != value]
        yield from choices or ["else"]
    elif isinstance(value, date):
        yield value + timedelta(days=400)
    elif isinstance(value, tuple) and len(value) > 0:
        yield value[:-1]
    elif isinstance(value, Mapping) and value:
        yield dict(list(value.items())[:-1])
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        for each in dataclasses.fields(value):
            for new in others(getattr(value, each.name)):
                yield _with(value, **{each.name: new})


def changed(obj: Frozen) -> Iterator[tuple[str, Frozen]]:
    """The object with one field changed, deep inside too, and which field it was."""
    for name, info in type(obj).model_fields.items():
        value, field = getattr(obj, name), owner_of(type(obj), name)
        for inner, new in _inside(value):
            yield inner, obj.model_copy(update={name: new})
        if not isinstance(value, Frozen):
            for new in others(value, info.annotation):
                yield field, obj.model_copy(update={name: new})


def _inside(value: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(value, Frozen):
        yield from changed(value)
    elif isinstance(value, tuple):
        for i, item in enumerate(value[:_ITEMS]):
            for field, new in _inside(item):
                yield field, (*value[:i], new, *value[i + 1 :])
    elif isinstance(value, Mapping):
        for key, item in list(value.items())[:_ITEMS]:
            for field, new in _inside(item):
                yield field, {**value, key: new}


def _screws(build: Build) -> Iterator[tuple[str, Build]]:
    """The screw of a place: it stands there beside the part of the build."""
    for i, place in enumerate(build.screws):
        for field, made in changed(place.part):
            both = (*build.screws[:i], _with(place, part=made), *build.screws[i + 1 :])
            yield field, _with(build, screws=both)


def changed_builds(build: Build) -> Iterator[tuple[str, Build]]:
    """A build with one field changed, of its own file, its parts, or its site, and which it was."""
    for key, fitted in build.parts.items():
        for field, part in changed(fitted.part):
            new = _with(fitted, part=part)
            yield field, _with(build, parts={**build.parts, key: new})
        for field, use in changed(fitted.use):
            new = _with(fitted, use=use)
            yield field, _with(build, parts={**build.parts, key: new})
    for key, pack in build.packs.items():
        for name in ("part", "use"):
            for field, made in changed(getattr(pack, name)):
                new_pack = _with(pack, **{name: made})
                yield field, _with(build, packs={**build.packs, key: new_pack})
    for group, name in (("wires", "wire"), ("plugs", "plug"), ("screws", "screw")):
        lines = getattr(build, group)
        for i, line in enumerate(lines):
            for field, made in changed(getattr(line, name)):
                new_line = _with(line, **{name: made})
                both = (*lines[:i], new_line, *lines[i + 1 :])
                yield field, _with(build, **{group: both})
    yield from _screws(build)
    for name in ("source", "site"):
        for field, made in changed(getattr(build, name)):
            yield field, _with(build, **{name: made})
