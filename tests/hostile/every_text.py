"""Puts words into every text field of a workspace: those that are written, and those that might be.

Which fields hold free text is read from the model: a field is free when a word of no meaning does
not stop the build.
"""

from collections.abc import Callable, Iterator, Mapping
from typing import Annotated, Any, get_args, get_origin

from pydantic import BaseModel

from builder.model.kinds import KINDS
from builder.model.site import Site
from builder.model.source.build_source import BuildSource
from builder.model.values.plain_values import parse_text
from builder.model.values.quantities import Reads

Path = tuple[str | int, ...]


def _is_text(annotation: Any) -> bool:
    """Text, Text | None; not a tuple of it and not a group."""
    if get_origin(annotation) is Annotated:
        return any(isinstance(m, Reads) and m.func is parse_text for m in annotation.__metadata__)
    return any(
        _is_text(a)
        for a in get_args(annotation)
        if a is not type(None) and get_origin(annotation) is not tuple
    )


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((m for a in get_args(annotation) if (m := _model_in(a)) is not None), None)


def _fields(model: type[BaseModel]) -> Iterator[tuple[str, Any]]:
    for name, field in model.model_fields.items():
        annotation = (
            Annotated[field.annotation, *field.metadata] if field.metadata else field.annotation
        )
        yield field.alias or name, annotation


def _owner(model: type[BaseModel], key: str) -> type[BaseModel]:
    """The class that a field was first written in: all kinds of part share the fields of a part."""
    holders = [
        c
        for c in model.__mro__
        if issubclass(c, BaseModel) and any(k == key for k, _ in _fields(c))
    ]
    return holders[-1]


def _places(model: type[BaseModel], tree: Any, path: Path) -> Iterator[tuple[str, Path]]:
    """(class.field, where) of every text field of an object, written or not, and of what is inside
    it.
    """
    if not isinstance(tree, Mapping):
        return
    for key, annotation in _fields(model):
        inner = _model_in(annotation)
        if inner is None:
            if _is_text(annotation) and get_origin(annotation) not in (tuple, dict):
                yield f"{_owner(model, key).__name__}.{key}", (*path, key)
            continue
        child = tree.get(key)
        if isinstance(child, list):
            for i, item in enumerate(child):
                yield from _places(inner, item, (*path, key, i))
        elif isinstance(child, Mapping) and get_origin(annotation) is dict:
            for name, item in child.items():
                yield from _places(inner, item, (*path, key, name))
        else:
            yield from _places(inner, child, (*path, key))


def text_places(trees: Mapping[str, Any]) -> Iterator[tuple[str, str, Path]]:
    """(class.field, file, where) of every text field of a workspace's trees by file."""
    for file, tree in trees.items():
        if file == "site.yaml":
            yield from ((name, file, path) for name, path in _places(Site, tree, ()))
        elif file.startswith("shelf/"):
            for part, entry in tree.items():
                yield from (
                    (name, file, path)
                    for name, path in _places(KINDS[entry["kind"]], entry, (part,))
                )
        else:
            yield from ((name, file, path) for name, path in _places(BuildSource, tree, ()))


def put(tree: Any, path: Path, words: str) -> None:
    """Writes words at a place of a tree."""
    for step in path[:-1]:
        tree = tree[step]
    tree[path[-1]] = words


def free_fields(
    trees: Mapping[str, Any], is_sane: Callable[[str, Path], bool]
) -> dict[str, list[tuple[str, Path]]]:
    """Fields where any words may stand, by class.field, with all their places."""
    places: dict[str, list[tuple[str, Path]]] = {}
    for name, file, path in text_places(trees):
        places.setdefault(name, []).append((file, path))
    return {name: found for name, found in places.items() if is_sane(*found[0])}
