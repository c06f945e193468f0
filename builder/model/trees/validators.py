"""The validators of the source: each is made when it is first needed, and once.

pydantic makes the validator of a class from those of the groups within it, if they are there; else
it makes them anew for every class that has such a group, as all kinds of parts have. So the groups
come first. At 27 kinds that saves about a fifth of a `check` of one build (measured on a busy
machine).
"""

from collections.abc import Hashable, Iterator
from functools import cache
from typing import Any, cast, get_args

from pydantic import BaseModel


@cache
def ready(model: type[BaseModel]) -> None:
    """Makes the validators of all groups within a class, then its own."""
    for group in _in_order(model, frozenset()):
        if not group.__pydantic_complete__:
            group.model_rebuild()


def _in_order(model: type[BaseModel], around: frozenset[type]) -> Iterator[type[BaseModel]]:
    """The groups within a class, the innermost first, and the class; `around` are those that it is
    within.
    """
    if model in around or model.__pydantic_complete__:
        return
    for group in _groups_of(model):
        yield from _in_order(group, around | {model})
    yield model


def _groups_of(model: type[BaseModel]) -> dict[type[BaseModel], None]:
    """The groups that a class names, each once."""
    annotations = (field.annotation for field in model.model_fields.values())
    return dict.fromkeys(group for each in annotations for group in groups_in(cast(Hashable, each)))


@cache
def groups_in(annotation: Any) -> tuple[type[BaseModel], ...]:
    """The classes of groups that an annotation names: itself, in a list, by key, or one of several."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return (annotation,)
    return tuple(group for part in get_args(annotation) for group in groups_in(part))
