"""What of a source may be given away: the fields that the register of facts does not keep back."""

from collections.abc import Iterable, Mapping
from typing import Any, get_args

from builder.model.trees.reading import whole_numbers
from builder.model.values.base import Frozen
from builder.rules.field_register import owner_of, shown_because

_KEPT_BACK = "never published"


def _classes_in(annotation: Any) -> Iterable[type[Frozen]]:
    """Every class of the model inside Optional, tuple, dict and unions."""
    if isinstance(annotation, type) and issubclass(annotation, Frozen):
        return (annotation,)
    return tuple(found for inner in get_args(annotation) for found in _classes_in(inner))


def _fields(cls: type[Frozen]) -> Mapping[str, tuple[str, Any]]:
    """Keys as they are written, with the field and what may stand there."""
    return {f.alias or name: (name, f.annotation) for name, f in cls.model_fields.items()}


def is_public(cls: type[Frozen], field: str) -> bool:
    """Whether a field of a class may be given away."""
    return not shown_because(owner_of(cls, field)).startswith(_KEPT_BACK)


def public_tree(cls: type[Frozen], tree: Mapping[str, Any]) -> dict[str, Any]:
    """A group as it was written, with the keys that the class knows and that are public."""
    fields = _fields(cls)
    sound = tree if all(key in fields for key in tree) else whole_numbers(tree)
    out: dict[str, Any] = {}
    for key, value in sound.items():
        name, annotation = fields.get(key, ("", None))
        if name and is_public(cls, name):
            out[key] = _public(value, tuple(_classes_in(annotation)), annotation)
    return out


def _public(value: Any, classes: tuple[type[Frozen], ...], annotation: Any) -> Any:
    """A value below a key whose groups are of these classes; a list or a group by names holds them
    one step deeper.
    """
    if not classes:
        return value
    if isinstance(value, list):
        return [_public(item, classes, None) for item in value]
    if not isinstance(value, Mapping):
        return value
    if _by_names(annotation):
        return {key: _public(item, classes, None) for key, item in value.items()}
    if set(value) <= {"add", "remove"}:  # a variant edits a list by its items
        return {key: _public(item, classes, None) for key, item in value.items()}
    return public_tree(classes[0], value)


def _by_names(annotation: Any) -> bool:
    """Whether a key holds a group by names of one's own."""
    origin = getattr(annotation, "__origin__", None)
    return origin is dict or any(_by_names(inner) for inner in get_args(annotation))
