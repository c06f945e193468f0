"""What a person may write, key by key: read off the classes of the model, for the field reference
and JSON Schema.

The words of a key are the comment `#:` beside its field, or on the line above, so that they stand
where the field stands; they are read from the source only when somebody asks.
"""

import ast
import inspect
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from builder.model.source.electrical import names
from builder.model.values.base import Frozen, Short
from builder.model.values.bounds import Within
from builder.model.values.quantities import Reads


@dataclass(frozen=True, slots=True)
class OneText:
    """A value that is written as one text: what it is in words, an example, and a pattern (ECMA
    262) or ''.

    `bounds` are the least and the most that is taken, `why` says where they come from; '' where
    there are none.
    """

    what: str
    example: str
    pattern: str
    bounds: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One of these words."""

    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ListOf:
    """A list; with `or_one` a single item may stand without its list."""

    item: "Value"
    or_one: bool = False


@dataclass(frozen=True, slots=True)
class MapOf:
    """A group of keys that the person names, all with the same kind of value."""

    item: "Value"


@dataclass(frozen=True, slots=True)
class Either:
    """Any of these."""

    values: tuple["Value", ...]


@dataclass(frozen=True, slots=True)
class Group:
    """A group of known keys; `short` is what it may be written as instead, in one text."""

    name: str
    about: str
    keys: tuple["Key", ...]
    short: OneText | Choice | None = None


Value = OneText | Choice | ListOf | MapOf | Either | Group


@dataclass(frozen=True, slots=True)
class Key:
    """A key of a group: its words, what may stand there, and whether the group can do without it."""

    name: str
    words: str
    value: Value
    required: bool


def _comments(lines: list[str]) -> Mapping[str, str]:
    """The words of each field of a class whose source lines these are."""
    found: dict[str, str] = {}
    tree = ast.parse("\n".join(lines))
    body = tree.body[0]
    assert isinstance(body, ast.ClassDef)
    for node in body.body:
        if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            beside = lines[(node.end_lineno or node.lineno) - 1].partition("  #: ")[2]
            found[node.target.id] = beside or _above(lines, node.lineno - 1)
    return found


def _above(lines: list[str], at: int) -> str:
    """The words of the lines above this one that begin with `#: `, as one text."""
    words: list[str] = []
    while at and lines[at - 1].strip().startswith("#: "):
        at -= 1
        words.insert(0, lines[at].strip()[3:])
    return " ".join(words)


@cache
def field_words(model: type[Frozen]) -> Mapping[str, str]:
    """The words of every field of a class, those of its bases included."""
    found: dict[str, str] = {}
    for base in reversed(model.__mro__):
        if issubclass(base, Frozen) and base is not Frozen:
            found.update(_comments(inspect.getsource(base).splitlines()))
    return found


def _short(model: type[Frozen]) -> OneText | Choice | None:
    if model.AS_TEXT:
        return OneText("text", model.AS_TEXT, "")
    if not issubclass(model, Short):
        return None
    value = _value(_hints(model)[model.SHORT])
    return value if isinstance(value, OneText | Choice) else None


def _hints(model: type[Frozen]) -> Mapping[str, Any]:
    return get_type_hints(model, vars(sys.modules[model.__module__]), include_extras=True)


@cache
def group(model: type[Frozen]) -> Group:
    """What may be written for a class of the model."""
    words, hints = field_words(model), _hints(model)
    required = {n for n, f in model.model_fields.items() if f.is_required()} - model.MAY_LACK
    keys = tuple(
        Key(field.alias or name, words.get(name, ""), _value(hints[name]), name in required)
        for name, field in model.model_fields.items()
    )
    about = inspect.cleandoc(model.__doc__ or "").split("\n\n")[0].replace("\n", " ")
    return Group(model.__name__, about, keys, _short(model))


def _value(hint: Any) -> Value:
    """What may stand where the model has this annotation."""
    origin, inner = get_origin(hint), get_args(hint)
    if origin is Annotated:
        how = next((m for m in inner[1:] if isinstance(m, Reads)), None)
        if how is None or how.func is names:
            value = _value(inner[0])
            return (
                ListOf(value.item, or_one=True)
                if how is not None and isinstance(value, ListOf)
                else value
            )
        limits = next((m for m in inner[1:] if isinstance(m, Within)), None)
        bounds, why = (limits.words, limits.why) if limits is not None else ("", "")
        return OneText(how.what, how.example, how.pattern, bounds, why)
    if origin is Literal:
        return Choice(tuple(map(str, inner)))
    if origin is tuple:
        return ListOf(_value(inner[0]))
    if origin is dict:
        return MapOf(_value(inner[1]))
    if isinstance(hint, type) and issubclass(hint, Frozen):
        return group(hint)
    if origin in (Union, type(int | str)):
        values = tuple(_value(h) for h in inner if h is not type(None))
        return values[0] if len(values) == 1 else Either(values)
    raise TypeError(f"describe: no words for {hint!r}")
