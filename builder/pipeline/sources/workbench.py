"""One build on which answers are tried: how much more is judged and known of it with each.

Nothing is kept and nothing is written; the sources are changed in memory, read and judged anew.
"""

from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from builder.compute.compute import on_demand
from builder.load.files import Loaded
from builder.load.yaml_nodes import Document
from builder.model.build import Build
from builder.model.read.workspace import Workspace, read_workspace
from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import judged_alone
from builder.rules.judge import Verdict, judge
from builder.rules.judge_swap import rules_of_swaps
from builder.rules.rule import Case, Rule

EACH = "*"  # in a path: every entry of a group by names that has not got it yet
AnswerPath = tuple[str | int, ...]


@dataclass(frozen=True)
class Standing:
    """How a build stands: what each rule lacks, how often it decided, and which figures are known."""

    lacking: Mapping[str, frozenset[str]]
    decided: Mapping[str, int]
    figures: frozenset[str]


@dataclass(frozen=True)
class Settled:
    """What an answer settles: checks that can be judged further, and figures that become known."""

    checks: frozenset[str] = frozenset()
    figures: frozenset[str] = frozenset()

    def without(self, other: "Settled") -> "Settled":
        """What is left where another answer is not known."""
        return Settled(self.checks - other.checks, self.figures - other.figures)

    @property
    def rank(self) -> tuple[int, int]:
        """Checks first, then figures."""
        return len(self.checks), len(self.figures)

    @property
    def words(self) -> str:
        """`settles 4 checks and 12 figures`; '' for nothing."""
        counts = ((len(self.checks), "check"), (len(self.figures), "figure"))
        said = [f"{n} {one}{'' if n == 1 else 's'}" for n, one in counts if n]
        return f"settles {' and '.join(said)}" if said else ""


NOTHING_SETTLED = Settled()


def standing(sheet: SheetInput) -> Standing:
    """How a judged build stands."""
    made = frozenset(f.key for f in sheet.figures if f.formula is not None)
    return replace(decisions(sheet.verdict), figures=made)


def decisions(verdict: Verdict) -> Standing:
    """How rules stand, without figures."""
    answers = verdict.answers
    lacking = {a.rule.code: frozenset(str(n.missing) for n in a.not_judged) for a in answers}
    decided = {a.rule.code: a.passed + len(a.findings) for a in answers}
    return Standing(lacking, decided, frozenset())


def settled(before: Standing, after: Standing) -> Settled:
    """What is judged and known after, and was not before."""
    codes = frozenset(code for code in after.decided if _further(code, before, after))
    return Settled(codes, after.figures - before.figures)


def _further(code: str, before: Standing, after: Standing) -> bool:
    """Whether a rule decides more than before, or lacks a fact less."""
    if after.decided[code] > before.decided.get(code, 0):
        return True
    fewer = len(after.lacking[code]) < len(before.lacking.get(code, ()))
    return fewer and after.decided[code] == before.decided.get(code, 0)


def put(node: Any, path: AnswerPath, value: Any) -> Any:
    """A tree with a value at a path, where nothing stands yet; groups on the way are made."""
    if not path:
        return value if node is None else node
    step, rest = path[0], path[1:]
    if isinstance(node, list):
        return [put(x, rest, value) if i == step else x for i, x in enumerate(node)]
    group = node if isinstance(node, Mapping) else {}
    if step == EACH:
        return {key: put(entry, rest, value) for key, entry in group.items()}
    return {**group, step: put(group.get(step), rest, value)}


def taken_out(node: Any, path: AnswerPath) -> Any:
    """A tree without what stands at a path."""
    if not isinstance(node, Mapping):
        return node
    step, rest = path[0], path[1:]
    if step == EACH:
        return {key: taken_out(entry, rest) for key, entry in node.items()}
    if step not in node:
        return node
    if not rest:
        return {key: entry for key, entry in node.items() if key != step}
    return {**node, step: taken_out(node[step], rest)}


@dataclass(eq=False)
class Workbench:
    """A build with all that it is made of; local to a call."""

    loaded: Loaded
    model: Workspace
    build: str

    @classmethod
    def of(cls, loaded: Loaded, model: Workspace, build: str) -> "Workbench":
        """The workbench of a build that can be read; other builds are put aside."""
        chain = (build, *model.builds.facts[build].bases)
        names = tuple(name for name in loaded.names if name in chain)
        others = {f"{name}/build.yaml" for name in loaded.builds if name not in chain}
        documents = {f: d for f, d in loaded.documents.items() if f not in others}
        return cls(replace(loaded, names=names, documents=documents), model, build)

    @cached_property
    def sheet(self) -> SheetInput:
        """The build as it is written, judged."""
        return judged_alone(self.model.builds[self.build])

    @cached_property
    def now(self) -> Standing:
        """How it stands."""
        return standing(self.sheet)

    def tree(self, file: str) -> Any:
        """What a file says."""
        return self.loaded.documents[file].tree

    def build_with(self, changed: Mapping[str, Any]) -> Build | None:
        """It with other trees in these files; None where it cannot be read so."""
        documents = {**self.loaded.documents}
        for file, tree in changed.items():
            documents[file] = Document(file, tree, {}, "", f"tried {id(tree)}")
        tried = replace(self.loaded, documents=documents)
        model = read_workspace(tried, self.model.known, self.model.shelf)
        return model.builds.get(self.build)

    def stands_with(self, changed: Mapping[str, Any]) -> Standing | None:
        """How it stands with other trees in these files; None where it cannot be read so."""
        build = self.build_with(changed)
        with suppress(Exception):  # an answer that nobody gave stops nothing
            return standing(judged_alone(build)) if build is not None else None
        return None

    def gains(self, file: str, path: AnswerPath, value: Any) -> Settled:
        """What a value at a path settles that is not there yet."""
        after = self.stands_with({file: put(self.tree(file), path, value)})
        return NOTHING_SETTLED if after is None else settled(self.now, after)

    def gains_of_lacking(self, file: str, path: AnswerPath, value: Any) -> Settled:
        """The same where it lets a rule judge that lacks a fact; nothing for all others, of which
        no more is worked out than these rules ask for.
        """
        build = self.build_with({file: put(self.tree(file), path, value)})
        with suppress(Exception):  # as above
            if build is not None and self._helps(build):
                return settled(self.now, standing(judged_alone(build)))
        return NOTHING_SETTLED

    @cached_property
    def _lacking(self) -> tuple[Rule, ...]:
        """The rules that lack a fact."""
        return tuple(a.rule for a in self.sheet.verdict.not_judged)

    def _helps(self, build: Build) -> bool:
        """Whether a rule that lacks a fact judges further of this build."""
        alone = set(rules_of_swaps())
        if not alone.issuperset(self._lacking):  # one reads the order of work: all is worked out
            after = standing(judged_alone(build))
        else:
            before = self._of_lacking
            after = decisions(judge(Case(build, on_demand(build)), self._lacking))
            return any(_further(code, before, after) for code in after.decided)
        return any(_further(rule.code, self.now, after) for rule in self._lacking)

    @cached_property
    def _of_lacking(self) -> Standing:
        """How the rules that lack a fact stand, asked alone."""
        build = self.model.builds[self.build]
        return decisions(judge(Case(build, on_demand(build)), self._lacking))

    def hangs_on(self, file: str, path: AnswerPath) -> Settled:
        """What would not be settled without what stands at a path."""
        before = self.stands_with({file: taken_out(self.tree(file), path)})
        return NOTHING_SETTLED if before is None else settled(before, self.now)
