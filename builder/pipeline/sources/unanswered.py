"""What a build does not say, ranked by what each answer would settle: each is tried, and what is
judged and known with it is counted. No list says what matters.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from builder.diagnostics.where import Where
from builder.load.files import Loaded
from builder.model.read.workspace import Workspace
from builder.pages.site.source_given import tree_of
from builder.pipeline.sources.questions import (
    OpenFact,
    asks_of,
    group_at,
    group_of_kind,
    open_facts,
)
from builder.pipeline.sources.starter_bench import shelf_of_starters
from builder.pipeline.sources.workbench import (
    EACH,
    NOTHING_SETTLED,
    AnswerPath,
    Settled,
    Workbench,
    put,
    settled,
)

_MOST_TRIED = 160  # a tenth of a second each
_MOST_TOGETHER = 8
_Wanted = Callable[[frozenset[str], OpenFact], bool]


def _of_these(codes: frozenset[str], fact: OpenFact) -> bool:
    """Whether one of these rules reads it itself."""
    return asks_of(fact.field, codes)


def _of_whole_part(codes: frozenset[str], fact: OpenFact) -> bool:
    """Whether it is of a whole part, not of each of its contacts."""
    return EACH not in fact.path


def _of_anything(codes: frozenset[str], fact: OpenFact) -> bool:
    """Whatever is not said."""
    return True


@dataclass(frozen=True)
class FactToGive:
    """One answer that is not given, or several that settle something only together."""

    asked: tuple[tuple[str, AnswerPath, OpenFact], ...]  # file, path of the group, what of it
    settles: Settled

    @property
    def words(self) -> str:
        """`supply.draw of rx-moorhen`."""
        return " and ".join(_words(path, question) for _, path, question in self.asked)

    @property
    def place(self) -> str:
        """The files in which they would stand."""
        return ", ".join(dict.fromkeys(file for file, _, _ in self.asked))


@dataclass(frozen=True)
class NamedFact:
    """What rules say is missing, in their words, and which rules: no single answer was found for
    them, so nobody knows what it settles.
    """

    missing: str
    codes: tuple[str, ...]


@dataclass(frozen=True)
class Unanswered:
    """All answers that would settle something, the most first; for rules for which none was found
    what they say is missing, and whether there was more to try.
    """

    answers: tuple[FactToGive, ...]
    named: tuple[NamedFact, ...]
    all_tried: bool


def _words(path: AnswerPath, question: OpenFact) -> str:
    steps = (str(step + 1 if isinstance(step, int) else step) for step in path)
    of = f"{question.key} of {' '.join(steps)}"
    return f"{of}, each of its {question.path[0]}" if EACH in question.path else of


@dataclass(eq=False)
class _Search:
    """One build, one search; local to a call."""

    bench: Workbench
    codes: frozenset[str]
    settles: dict[tuple[str, AnswerPath], tuple[AnswerPath, OpenFact, Settled]]

    def pointed(self, codes: frozenset[str]) -> Iterator[tuple[str, AnswerPath]]:
        """Groups that these rules point at, each once."""
        lacking = (a for a in self.bench.sheet.verdict.not_judged if a.rule.code in codes)
        wheres = [n.where for a in lacking for n in a.not_judged if n.where is not None]
        found = ((where.file, path) for where in wheres for path in _group_path(where))
        yield from dict.fromkeys(found)

    def fitted(self) -> Iterator[tuple[str, AnswerPath]]:
        """Every part of the shelf that the build uses."""
        build = self.bench.model.builds[self.bench.build]
        names = [*(f.shelf for f in build.parts.values()), *(p.shelf for p in build.packs.values())]
        entries = (build.shelf[name].where for name in names)
        yield from dict.fromkeys((where.file, where.path) for where in entries)

    def run(self) -> bool:
        """Tries answers where rules point, first what they read themselves; for rules that none of
        them settles then what anything reads there, last of each contact, then other parts. Whether
        all were tried.
        """
        steps: tuple[tuple[bool, _Wanted], ...] = (
            (True, _of_these),
            (True, _of_whole_part),
            (True, _of_anything),
            (False, _of_these),
        )
        for pointed, wanted in steps:
            left = self.codes - self.settled_codes
            groups = self.pointed(left) if pointed else self.fitted()
            if left and not self._try(groups, partial(wanted, left)):
                return False
        return True

    @property
    def settled_codes(self) -> frozenset[str]:
        """Rules that lacked a fact and that some answer settles."""
        gains = (gain.checks for _, _, gain in self.settles.values())
        return self.codes & frozenset().union(*gains)

    def _try(
        self, groups: Iterable[tuple[str, AnswerPath]], wanted: Callable[[OpenFact], bool]
    ) -> bool:
        """Tries what these groups do not say, as far as it is wanted; whether all of it was."""
        for file, path in groups:
            for question in filter(wanted, _questions(self.bench, file, path)):
                whole = (*path, *question.path)
                if (file, whole) in self.settles:
                    continue
                if len(self.settles) >= _MOST_TRIED:
                    return False
                gain = self.bench.gains_of_lacking(file, whole, question.tried)
                self.settles[file, whole] = (path, question, gain)
        return True


def _group_path(where: Where) -> tuple[AnswerPath, ...]:
    """The group that a place lies in: an entry of the shelf, or the nearest group of a build."""
    if where.file.startswith("shelf/"):
        return (where.path[:1],)
    for length in range(len(where.path), 0, -1):
        if group_at(where.path[:length]) is not None:
            return (where.path[:length],)
    return ()


def _node(tree: Any, path: AnswerPath) -> Any:
    for step in path:
        inside = isinstance(tree, Mapping) and step in tree
        listed = isinstance(tree, list) and isinstance(step, int) and step < len(tree)
        if not (inside or listed):
            return None
        tree = tree[step]
    return tree


def _questions(bench: Workbench, file: str, path: AnswerPath) -> Iterator[OpenFact]:
    """What a group of a file does not say; others of its kind or list tell what may be tried."""
    tree = bench.tree(file)
    node = _node(tree, path)
    if file.startswith("shelf/"):
        kind = node.get("kind") if isinstance(node, Mapping) else None
        if isinstance(kind, str):
            yield from open_facts(group_of_kind(kind), node, _of_kind(bench.loaded, kind))
        return
    about = group_at(path)
    siblings = _node(tree, path[:-1])
    listed = siblings if isinstance(siblings, list) else []
    if about is not None:
        yield from open_facts(about, node, listed)


def _of_kind(loaded: Loaded, kind: str) -> Iterator[Any]:
    """Every part of a kind on the shelf, then those that come with Benchleaf."""
    for file in loaded.shelf_files:
        for entry in tree_of(loaded, file).values():
            if isinstance(entry, Mapping) and entry.get("kind") == kind:
                yield entry
    yield from shelf_of_starters(kind)


def unanswered(loaded: Loaded, model: Workspace, build: str) -> Unanswered:
    """What would settle most of a build that can be read."""
    bench = Workbench.of(loaded, model, build)
    lacking = {code for code, facts in bench.now.lacking.items() if facts}
    search = _Search(bench, frozenset(lacking), {})
    all_tried = search.run() if lacking else True
    alone = [
        FactToGive(((file, path, question),), gain)
        for (file, _), (path, question, gain) in search.settles.items()
        if gain.checks & lacking
    ]
    together = [_together(search, code) for code in sorted(lacking - search.settled_codes)]
    found = [*alone, *(answer for answer in together if answer is not None)]
    found.sort(key=lambda answer: answer.settles.rank, reverse=True)
    settled_codes = {code for answer in found for code in answer.settles.checks}
    return Unanswered(tuple(found), _named(bench, lacking - settled_codes), all_tried)


def _named(bench: Workbench, codes: Collection[str]) -> tuple[NamedFact, ...]:
    """What these rules say is missing, first what most of them name."""
    by_fact: dict[str, list[str]] = {}
    for code in sorted(codes):
        for missing in sorted(bench.now.lacking[code]):
            by_fact.setdefault(missing, []).append(code)
    facts = [NamedFact(missing, tuple(own)) for missing, own in by_fact.items()]
    return tuple(sorted(facts, key=lambda fact: len(fact.codes), reverse=True))


def _together(search: _Search, code: str) -> FactToGive | None:
    """Answers that let one rule judge only together, each of them needed."""
    needed = [
        (file, path, question)
        for (file, _), (path, question, _) in search.settles.items()
        if asks_of(question.field, frozenset((code,)))
    ]
    if not 2 <= len(needed) <= _MOST_TOGETHER:
        return None
    gain = _gain(search.bench, needed)
    if code not in gain.checks:
        return None
    for each in tuple(needed):
        fewer = [one for one in needed if one is not each]
        less = _gain(search.bench, fewer)
        if code in less.checks:
            needed, gain = fewer, less
    return FactToGive(tuple(needed), gain)


def _gain(bench: Workbench, asked: list[tuple[str, AnswerPath, OpenFact]]) -> Settled:
    changed: dict[str, Any] = {}
    for file, path, question in asked:
        tree = changed.get(file, bench.tree(file))
        changed[file] = put(tree, (*path, *question.path), question.tried)
    after = bench.stands_with(changed)
    return NOTHING_SETTLED if after is None else settled(bench.now, after)
