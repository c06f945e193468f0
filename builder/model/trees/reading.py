"""Validates a tree against a pydantic class and turns every error into a mistake with a place and a
hint.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import KeyPath, Origins, Where
from builder.model.source.renamed import REMOVED, RENAMED, SECRET
from builder.model.trees.validators import ready

MOST_MISTAKES = 100  # said of one object; a file with more was written for another program
M = TypeVar("M", bound=BaseModel)
_RIGHT_OF_COMMA = re.compile(
    r"\d+(?:\s*(?:±|\+-|\+/-|[-–x×]|to)\s*[\d.]+)?\s*\S{0,7}"
)  # what a decimal comma leaves over inside { }
_COMMA = "A comma ends a value inside { }: write decimals with a point, like '6.5 cm'."
_BEFORE_COMMA = re.compile(r"(?:.*\D)?\d{1,9}")  # and what stands before it


def _holds(tree: Any, step: str | int) -> bool:
    if isinstance(tree, Mapping):
        return step in tree
    return isinstance(tree, list) and isinstance(step, int) and step < len(tree)


def _present(tree: Any, loc: KeyPath) -> tuple[KeyPath, Any]:
    """The longest part of a pydantic `loc` that leads somewhere in the tree, and what stands there."""
    path: list[str | int] = []
    for step in loc:
        if not _holds(tree, step):
            continue  # union members and absent fields stand in no file
        tree = tree[step]
        path.append(step)
    return tuple(path), tree


_RENAMED_SECRET = "Take the line out: a sheet does not need it, and a secret is not published."


def _keys(model: type[BaseModel], loc: KeyPath) -> list[str]:
    """The keys that a class takes at a `loc`: walked through the annotations as far as they can be
    followed.
    """
    current: Any = model
    for step in loc[:-1]:
        found = _step_into(current, step)
        if found is None:
            break
        current = found
    fields = (
        current.model_fields if isinstance(current, type) and issubclass(current, BaseModel) else {}
    )
    return [f.alias or name for name, f in fields.items()]


def _step_into(annotation: Any, step: str | int) -> Any:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        for name, field in annotation.model_fields.items():
            if step in (name, field.alias):
                return _class_in(field.annotation)
    return annotation if isinstance(step, int) or isinstance(annotation, type) else None


def _class_in(annotation: Any) -> Any:
    """The model class inside Optional, tuple or dict."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        found = _class_in(inner)
        if found is not None:
            return found
    return None


def _not_a_key(name: str, known: list[str], where: Where, *, empty: bool) -> Finding:
    """A key that is not taken: one that has another name now, one that is gone, or a slip; an
    `empty` one may be what a decimal comma has cut off.
    """
    if RENAMED.get(name) in known:
        new = RENAMED[name]
        said = f"The key {name!r} has another name now: {new!r}."
        hint = _RENAMED_SECRET if new == SECRET else f"Write '{new}:' instead, with the same value."
        return mistake("data/renamed-key", said, hint, where)
    if name in REMOVED:
        said = f"The key {name!r} is gone: it would change nothing."
        return mistake("data/unknown-key", said, f"Take the line out. {REMOVED[name]}", where)
    cut = empty and _RIGHT_OF_COMMA.fullmatch(name) is not None
    hint = _COMMA if cut else did_you_mean(name, known)
    return mistake("data/unknown-key", f"{name!r} is not a key that is known here.", hint, where)


def _one(error: Any, tree: Any, model: type[BaseModel], origins: Origins) -> Finding:
    kind, loc = error["type"], tuple(error["loc"])
    path, value = _present(tree, loc)
    where = origins.where(path)
    if kind == "benchleaf":
        ctx = error["ctx"]
        at = Where(where.file, where.path, offset=ctx["offset"]) if ctx["offset"] else where
        return mistake(ctx["code"], ctx["message"], ctx["hint"], at)
    if kind == "missing":
        inside = next((s for s in reversed(path) if isinstance(s, str)), "")
        what = f"{loc[-1]!r} is missing{f' in {inside!r}' if inside else ''}."
        at = origins.where(path, key=True) if path else where
        return mistake("data/missing-key", what, f"Add a line '{loc[-1]}: …'.", at)
    if kind == "extra_forbidden":
        at = origins.where(path, key=True)
        return _not_a_key(str(loc[-1]), _keys(model, loc), at, empty=value in (None, ""))
    if kind == "literal_error":
        expected = error["ctx"]["expected"]
        return mistake(
            "data/not-a-choice",
            f"{value!r} is not one of the words that fit here.",
            f"Write one of {expected}.",
            where,
        )
    if kind in ("model_type", "dict_type", "model_attributes_type"):
        return mistake(
            "data/wrong-shape",
            f"Here a group of keys is due, found {_named(value)}.",
            "Write 'key: value' lines, or {key: value}.",
            where,
        )
    if kind in ("tuple_type", "list_type"):
        return mistake(
            "data/wrong-shape",
            f"Here a list is due, found {_named(value)}.",
            "Write '- ' lines, or [a, b].",
            where,
        )
    return mistake(
        "data/wrong-shape",
        f"This value cannot be read ({error['msg'].lower()}).",
        "See the field reference.",
        where,
    )


def _named(value: Any) -> str:
    if isinstance(value, str):
        return f"the text {value[:40]!r}"
    return {dict: "a group of keys", list: "a list", type(None): "nothing"}.get(
        type(value), type(value).__name__
    )


def read_as(model: type[M], tree: Any, origins: Origins) -> tuple[M | None, tuple[Finding, ...]]:
    """The tree as an object of the class, or None and every mistake in it, in the order of the
    file.
    """
    ready(model)
    try:
        return model.model_validate(tree), ()
    except ValidationError as error:
        errors = error.errors(include_url=False)
        whole = whole_numbers(tree) if _any_cut(errors) else tree
        if whole != tree:
            return read_as(model, whole, origins)
        found = [_one(e, tree, model, origins) for e in errors[:MOST_MISTAKES]]
        order = {path: i for i, path in enumerate(_paths(tree, ()))}
        found.sort(key=lambda f: order.get(f.where.path if f.where else (), -1))
        more = len(errors) - len(found)
        if more > 0:
            problem = f"There are {more} more mistakes of such kinds."
            found.append(
                mistake("data/wrong-shape", problem, "Fix those above first.", origins.where(()))
            )
        return None, tuple(dict.fromkeys(found))


def _any_cut(errors: Iterable[Any]) -> bool:
    """Whether an unknown key looks like what a decimal comma leaves over inside { }."""
    unknown = (e["loc"][-1] for e in errors if e["type"] == "extra_forbidden" and e["loc"])
    return any(_RIGHT_OF_COMMA.fullmatch(str(key)) for key in unknown)


def whole_numbers(node: Any) -> Any:
    """The tree with each number put together again that a decimal comma inside { } has cut in two:
    `{measured: 30,5 g}` reads as the keys `measured: 30` and `5 g`, and nothing else reads so.
    """
    if isinstance(node, list):
        return [whole_numbers(child) for child in node]
    if not isinstance(node, Mapping):
        return node
    out: dict[str, Any] = {}
    last = ""
    for key, value in node.items():
        before = out.get(last)
        cut = value in (None, "") and _RIGHT_OF_COMMA.fullmatch(key)
        if cut and isinstance(before, str) and _BEFORE_COMMA.fullmatch(before):
            out[last] = f"{before},{key}"
            continue
        out[key], last = whole_numbers(value), key
    return out


def children_of(node: Any) -> Iterable[tuple[str | int, Any]]:
    """What is one step below: by key, by place in a list; nothing below a text."""
    if isinstance(node, Mapping):
        return node.items()
    return enumerate(node) if isinstance(node, list) else ()


def _paths(tree: Any, path: KeyPath) -> Iterator[KeyPath]:
    """Every path of a tree in the order of the file."""
    yield path
    for step, child in children_of(tree):
        yield from _paths(child, (*path, step))
