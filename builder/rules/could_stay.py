"""Whether a part of one build could stay where another build has a different one: the rules are run on that build."""

from dataclasses import dataclass, replace

from builder.compute.alternatives import swapped
from builder.compute.compute import compute
from builder.diagnostics.finding import Finding
from builder.model.build import Build
from builder.rules.judge import Verdict, judge
from builder.rules.rule import Case

MOST = 6  # places tried for one pair; each costs one run of compute and rules
_OF_PAPERS = ("data", "law")  # these judge the aircraft that was weighed and flown, not how parts go together


@dataclass(frozen=True, eq=False)
class Stay:
    """One place of the second build with the first build's part in it: joins that find no contact, new findings."""

    key: str
    label: str
    lost: tuple[str, ...]
    new: tuple[Finding, ...]


def could_stay(a: Build, b: Build, verdict: Verdict) -> tuple[Stay, ...]:
    """Each place that both have with parts of one kind that differ, in the order of the second build's file."""
    before = {(f.code, f.message) for f in verdict.findings}
    stocked = replace(b, shelf={**a.shelf, **b.shelf})  # a build's own shelf holds only what it may use
    out: list[Stay] = []
    for key, there in b.parts.items():
        here = a.parts.get(key)
        alike = here is not None and here.shelf != there.shelf and here.part.kind == there.part.kind
        if here is None or not alike or len(out) == MOST:
            continue
        swap = swapped(stocked, key, here.shelf)
        found = judge(Case(swap.build, compute(swap.build))).findings
        new = tuple(f for f in found if (f.code, f.message) not in before and f.code.split("/")[0] not in _OF_PAPERS)
        out.append(Stay(key, here.part.name, swap.lost, new))
    return tuple(out)
