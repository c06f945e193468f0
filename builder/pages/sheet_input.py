"""What a page of one build is made from: the build, its results, the verdict."""

from dataclasses import dataclass, field
from functools import cached_property

from builder.compute.compare.pack_sizes import PackSizes
from builder.compute.figures.collect import all_figures, all_unknown, all_within
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.results import Results
from builder.model.build import Build
from builder.model.guide.chapter import GuideChapter
from builder.model.guide.given_along import GivenAlong
from builder.rules.choose.search import Choices
from builder.rules.judge import Verdict
from builder.rules.not_looked_at import checks_in_words
from builder.rules.try_alternatives import Alternatives


@dataclass(frozen=True, eq=False)
class SheetInput:
    """One build with all that was computed and judged of it. `draft` marks every page.

    `alternatives`, `sizes` and `choices` take a run of compute for each part or pack that is tried, so
    only a sheet has them.
    """

    build: Build
    results: Results
    verdict: Verdict
    draft: bool = False
    alternatives: Alternatives = field(default_factory=Alternatives)
    sizes: PackSizes | None = None
    choices: Choices | None = None
    guide: tuple[GuideChapter, ...] = ()
    given: tuple[GivenAlong, ...] = ()

    @cached_property
    def checks(self) -> str:
        """What passed, what could not be checked, and what none of the checks looks at."""
        return checks_in_words(self.build, self.verdict)

    @cached_property
    def _within(self) -> tuple[MaybeFigure, ...]:
        return all_within((self.results, self.alternatives, self.sizes))

    @cached_property
    def figures(self) -> tuple[Figure, ...]:
        """All figures with their derivations, inputs before what uses them, one a key."""
        return all_figures(self._within)

    @cached_property
    def keys(self) -> frozenset[str]:
        """The keys that open on the numbers page."""
        return frozenset(f.key for f in self.figures)

    @cached_property
    def unknown(self) -> tuple[Unknown, ...]:
        """What is not known, one a key."""
        return all_unknown(self._within)
