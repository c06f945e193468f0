"""What to ask a person of a new part: the answer first that lets most be judged, and only what
settles something.

Each fact is taken out of a part of the kind in a build in which all else is known, or put in where
that part does not say it; what is judged and known less, or more, is its rank.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from builder.diagnostics.finding import Collector, Finding
from builder.diagnostics.where import Where
from builder.load.field_readers import readers
from builder.load.limits import DEFAULT_LIMITS
from builder.load.yaml_nodes import read_yaml
from builder.model.read.shelf import read_part
from builder.model.source.describe import Choice, Either, Group, Key, ListOf, OneText, Value
from builder.pipeline.sources.questions import group_of_kind, like_of, open_facts
from builder.pipeline.sources.starter_bench import bench_with, shelf_of_starters
from builder.pipeline.sources.workbench import EACH, AnswerPath, Settled, put
from builder.rules.field_register import SHOWN_ONLY, field_of


@dataclass(frozen=True)
class Asked:
    """A question with what its answer settles."""

    path: AnswerPath
    words: str
    like: str
    settles: Settled

    @property
    def key(self) -> str:
        """`supply.draw`."""
        return ".".join(map(str, self.path))


def _in_one_line(value: Value) -> bool:
    """Whether an answer is one text, or some with commas between."""
    if isinstance(value, Either):
        return any(map(_in_one_line, value.values))
    if isinstance(value, ListOf):
        return isinstance(value.item, OneText | Choice)
    return isinstance(value, OneText | Choice) or (
        isinstance(value, Group) and value.short is not None
    )


def _leaves(
    about: Group, tree: Any, path: AnswerPath = ()
) -> Iterator[tuple[AnswerPath, Key, str]]:
    """Every key that a part says and that can be answered in one line, with its field."""
    said = tree if isinstance(tree, Mapping) else {}
    for key in about.keys:
        if key.name not in said:
            continue
        here = (*path, key.name)
        if _in_one_line(key.value):
            yield here, key, field_of(about.name, key.name)
        elif isinstance(key.value, Group):
            yield from _leaves(key.value, said[key.name], here)


def _value_at(about: Group, path: AnswerPath) -> Value | None:
    value: Value = about
    for step in path:
        keys = value.keys if isinstance(value, Group) else ()
        found = next((k.value for k in keys if k.name == step), None)
        if found is None:
            return None
        value = found
    return value


def ranked_questions(kind: str) -> tuple[Asked, ...]:
    """What to ask of a part of a kind, what settles most first; what settles nothing is left out."""
    about = group_of_kind(kind)
    place = bench_with(kind)
    if place is None:
        return ()
    bench, file, name = place
    tree = bench.tree(file)[name]
    found: list[Asked] = []
    for path, key, field_name in _leaves(about, tree):
        if field_name not in SHOWN_ONLY and readers().get(field_name):
            gain = bench.hangs_on(file, (name, *path))
            like = _like(key.value, _said_at(tree, path))
            found.append(Asked(path, key.words, like, gain))
    others = (e for e in shelf_of_starters(kind) if e is not tree)
    for question in open_facts(about, tree, others):
        value = _value_at(about, question.path)
        if EACH in question.path or value is None or not _in_one_line(value):
            continue
        gain = bench.gains(file, (name, *question.path), question.tried)
        like = _like(value, question.tried)
        found.append(Asked(question.path, question.words, like, gain))
    settling = [asked for asked in found if asked.settles.rank > (0, 0)]
    return tuple(sorted(settling, key=lambda asked: asked.settles.rank, reverse=True))


def _said_at(tree: Any, path: AnswerPath) -> Any:
    for step in path:
        tree = tree[step]
    return tree


def _like(value: Value, said: Any) -> str:
    """How an answer is written: as a part that comes along says it, where it is one quantity; for a
    shaft `1.5 mm` shows more than any length.
    """
    usual = like_of(value)
    of_part = isinstance(value, OneText) and isinstance(said, str) and bool(usual)
    return said if of_part else usual


def as_tree(text: str, value: Value | None) -> Any:
    """An answer as a tree: a list where one is due, a group in braces, else the text as it is."""
    plain = " ".join(text.split())
    if plain.startswith(("{", "[")):
        document, wrong = read_yaml("answer", f"answer: {plain}\n", "", DEFAULT_LIMITS)
        tree = document.tree
        return tree["answer"] if isinstance(tree, dict) and not wrong else plain
    if isinstance(value, ListOf):
        return [item.strip() for item in plain.split(", ") if item.strip()]
    return plain


@dataclass(eq=False)
class Asking:
    """A part while it is asked for; local to a command."""

    kind: str
    tree: dict[str, Any]
    currency: str
    left: list[Asked]
    not_known: list[Asked] = field(default_factory=list)

    def following(self) -> Asked | None:
        """What to ask next: what settles most with what is not known by now; None for nothing."""
        open_ones = (asked for asked in self.left if not self._is_said(asked.path))
        ranked = [(self._rest(asked), asked) for asked in open_ones]
        best = max(ranked, key=lambda pair: pair[0].rank, default=None)
        if best is None or best[0].rank == (0, 0):
            return None
        self.left.remove(best[1])
        return Asked(best[1].path, best[1].words, best[1].like, best[0])

    def _is_said(self, path: AnswerPath) -> bool:
        """Whether a part says this already, or says all of its group in one text."""
        node: Any = self.tree
        for step in path:
            if not isinstance(node, Mapping):
                return True
            if step not in node:
                return False
            node = node[step]
        return True

    def _rest(self, asked: Asked) -> Settled:
        """What an answer settles still, where others are not known."""
        rest = asked.settles
        for other in self.not_known:
            rest = rest.without(other.settles)
        return rest

    def answer(self, path: AnswerPath, text: str) -> Finding | None:
        """Takes an answer in; the first thing that is wrong with it where it cannot stand."""
        value = _value_at(group_of_kind(self.kind), path)
        tried = put(_without(self.tree, path), path, as_tree(text, value))
        found = Collector()
        read_part("part", tried, Where("answer", ("part",)), found, self.currency)
        if found.findings:
            return found.findings[0]
        self.tree = tried
        return None

    def does_not_know(self, asked: Asked) -> None:
        """Notes that nobody knows it: what it would settle, others do not settle alone."""
        self.not_known.append(asked)


def _without(tree: dict[str, Any], path: AnswerPath) -> dict[str, Any]:
    if len(path) != 1:
        return tree
    return {key: value for key, value in tree.items() if key != path[0]}
