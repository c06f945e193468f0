"""Which facts of a group nobody gave yet, each with an answer that can be tried.

What may be asked is read off the classes of the model; the answer that is tried is what another
part of the kind says, else the example of the value's own type.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from builder.load.field_readers import effects, readers
from builder.model.kinds import KINDS
from builder.model.source.build_source import BuildSource
from builder.model.source.describe import (
    Choice,
    Either,
    Group,
    Key,
    ListOf,
    MapOf,
    OneText,
    Value,
    group,
)
from builder.pipeline.sources.workbench import EACH, AnswerPath
from builder.rules.field_register import SHOWN_ONLY, field_of

_SOME_WORDS = "words"  # free words: a rule hears that something is said
_OF_MONEY = frozenset(("compute/money",))  # a price is asked as one
# A role cannot be tried on all contacts at once; what was assumed is never an answer; another
# `lead` makes another wire of it, and says no more of the one that is there.
_NOT_ASKED = frozenset(("Pad.role", "Pad.assumed", "Wire.lead"))
_ONE_IS_ENOUGH = frozenset(("SourcedMass", "CellResistance", "ShuntResistance"))


@dataclass(frozen=True)
class OpenFact:
    """A fact that is not given: where it would stand, its words, how it is written, and what is
    tried. `field` is its name in the register of facts.
    """

    path: AnswerPath
    words: str
    like: str
    tried: Any
    field: str

    @property
    def key(self) -> str:
        """`supply.draw`."""
        return ".".join(str(step) for step in self.path if step != EACH)


def example_of(value: Value) -> Any:
    """A tree that may stand for a value: the example of its type; None where there is none."""
    if isinstance(value, OneText):
        return value.example or _SOME_WORDS
    if isinstance(value, Choice):
        return value.words[0]
    if isinstance(value, Either):
        return example_of(value.values[0])
    if isinstance(value, ListOf):
        item = example_of(value.item)
        return [item] if item is not None else None
    if isinstance(value, MapOf):
        return None
    if value.short is not None:
        return example_of(value.short)
    inside = {key.name: example_of(key.value) for key in value.keys}
    return {name: said for name, said in inside.items() if isinstance(said, str)} or None


def like_of(value: Value) -> str:
    """How a value is written, in one line: its example or its words."""
    if isinstance(value, Choice):
        return " or ".join(value.words)
    if isinstance(value, Group) and value.short is None:
        return "{" + ", ".join(f"{k.name}: ..." for k in value.keys[:3]) + "}"
    said = example_of(value)
    return said if isinstance(said, str) and said != _SOME_WORDS else ""


def _found(trees: Iterable[Any], path: AnswerPath) -> Any:
    """The first thing that stands at a path in one of these trees."""
    for tree in trees:
        for said in _at(tree, path):
            return said
    return None


def _at(node: Any, path: AnswerPath) -> Iterator[Any]:
    if not path:
        yield node
    elif isinstance(node, Mapping) and path[0] == EACH:
        for entry in node.values():
            yield from _at(entry, path[1:])
    elif isinstance(node, Mapping) and path[0] in node:
        yield from _at(node[path[0]], path[1:])


def _lacking(about: Group, tree: Any, path: AnswerPath) -> Iterator[tuple[AnswerPath, Group, Key]]:
    """Every key of a group that its tree does not say, and of the groups in it that it does."""
    said = tree if isinstance(tree, Mapping) else {}
    for key in about.keys:
        here = (*path, key.name)
        value = key.value
        if key.name not in said:
            yield here, about, key
        elif isinstance(value, Group) and value.name not in _ONE_IS_ENOUGH:
            if isinstance(said[key.name], Mapping):
                yield from _lacking(value, said[key.name], here)
        elif isinstance(value, MapOf) and isinstance(value.item, Group):
            yield from _of_entries(value.item, said[key.name], here)


def _of_entries(
    item: Group, entries: Any, path: AnswerPath
) -> Iterator[tuple[AnswerPath, Group, Key]]:
    """Keys that at least one entry of a group by names does not say, each once."""
    trees = entries.values() if isinstance(entries, Mapping) else ()
    for key in item.keys:
        if any(isinstance(tree, Mapping) and key.name not in tree for tree in trees):
            yield (*path, EACH, key.name), item, key


def open_facts(about: Group, tree: Any, others: Iterable[Any] = ()) -> Iterator[OpenFact]:
    """What a group does not say and something reads, each with an answer to try."""
    like = tuple(others)
    for path, owner, key in _lacking(about, tree, ()):
        field = field_of(owner.name, key.name)
        read_by = set(readers().get(field, ()))
        if field in SHOWN_ONLY or field in _NOT_ASKED or not read_by - _OF_MONEY:
            continue
        tried = _found(like, path)
        tried = example_of(key.value) if tried is None else tried
        if tried is not None:
            yield OpenFact(path, key.words, like_of(key.value), tried, field)


def group_of_kind(kind: str) -> Group:
    """What may be written for a part of a kind."""
    return group(KINDS[kind])


def group_at(path: AnswerPath) -> Group | None:
    """What may be written at a path of a build's file; None where no group stands."""
    value: Value = group(BuildSource)
    for step in path:
        inside = _step(value, step)
        if inside is None:
            return None
        value = inside
    return value if isinstance(value, Group) else None


def _step(value: Value, step: str | int) -> Value | None:
    if isinstance(value, Either):
        steps = (_step(each, step) for each in value.values)
        return next((s for s in steps if s is not None), None)
    if isinstance(value, ListOf | MapOf):
        return value.item
    if not isinstance(value, Group):
        return None
    return next((k.value for k in value.keys if k.name == step), None)


def asks_of(field: str, codes: frozenset[str]) -> bool:
    """Whether one of these rules reads a field, or is known to answer otherwise by it."""
    return bool(codes.intersection(readers().get(field, ()), effects().get(field, ())))
