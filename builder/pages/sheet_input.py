"""What a page of one build is made from: the build, its results, the verdict."""

from dataclasses import dataclass, field

from builder.compute.pack_sizes import PackSizes
from builder.compute.results import Results
from builder.model.build import Build
from builder.rules.judge import Verdict
from builder.rules.try_alternatives import Alternatives


@dataclass(frozen=True, eq=False)
class SheetInput:
    """One build with all that was computed and judged of it. `draft` marks every page.

    `alternatives` and `sizes` take a run of compute for each part or pack that is tried, so only a sheet has them.
    """

    build: Build
    results: Results
    verdict: Verdict
    draft: bool = False
    alternatives: Alternatives = field(default_factory=Alternatives)
    sizes: PackSizes | None = None

    @property
    def computed(self) -> tuple[object, ...]:
        """All that holds figures."""
        return self.results, self.alternatives, self.sizes
