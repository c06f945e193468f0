"""`choose` on the demo's whole shelf against every selection there is: none that is lighter, cheaper or
longer in the air than all that were found keeps the rules, or it was said that a fact lacks.

Every selection is judged by itself, without what was heard of another: rules are asked until one finds
a fault. Those that none refuses are flown, weighed and priced, without a bound; those that none of
the found ones beats are computed whole and judged by every rule.
"""

from collections import Counter

import pytest

from builder.compute.choose.offers import Offer, Selection
from builder.compute.choose.on_demand import OnDemand
from builder.compute.choose.selected_build import selected_build
from builder.compute.choose.selections import every_selection
from builder.compute.choose.three_figures import three_figures
from builder.diagnostics.finding import Severity
from builder.pipeline.check import Checked
from builder.rules.choose.search import choose_swaps, no_worse
from builder.rules.find_rules import all_rules
from builder.rules.judge_swap import rules_of_parts, rules_of_swaps
from builder.rules.rule import Case, Found
from tests.choose.all_tried import ShelfEntries, point_of

pytestmark = pytest.mark.slow  # takes long


class _Judge:
    """The rules of swaps, those that refused most asked first."""

    def __init__(self) -> None:
        asked = {r.code for r in (*rules_of_swaps(), *rules_of_parts())}
        faults = (r for r in all_rules() if r.code in asked and r.severity == Severity.FAULT)
        self.rules = sorted(faults, key=lambda r: r.family != "fit")
        self.refused: Counter[str] = Counter()

    def refuses(self, case: Case) -> bool:
        for rule in self.rules:
            said = rule.check(case)
            faults = (o for o in said if isinstance(o, Found) and o.severity != Severity.REMARK)
            if any(True for _ in faults):
                self.refused[rule.code] += 1
                if rule.family == "fit":
                    self.rules.sort(key=lambda r: (r.family != "fit", -self.refused[r.code]))
                return True
        return False


@pytest.mark.parametrize(("name", "least"), [("pipit", 1000), ("dipper", 6000)])
def test_nothing_of_the_demos_shelf_is_missed(demo: Checked, name: str, least: int) -> None:
    sheet, shelf = demo.sheets[name], dict(demo.workspace.shelf)
    found = choose_swaps(sheet.build, shelf, sheet.results, sheet.verdict)
    assert found.whole
    right = [p for c in found.right if (p := c.figures.of_known) is not None]
    unsure = [set(c.selection.swaps) for c in found.unsure]
    every: ShelfEntries = {**sheet.build.shelf, **shelf}
    looked, better, judge = 0, [], _Judge()
    for selection in every_selection(sheet.build, every):
        looked += 1
        made = selected_build(sheet.build, selection, every)
        worked = OnDemand(made, sheet.results.flight.style)
        if judge.refuses(Case(made, worked)):
            continue
        point = three_figures(made, worked).of_known
        if point is not None and not any(no_worse(p, point) for p in right):
            better.append(selection)
    assert looked == found.of > least
    kept = [s for s in better if point_of(sheet.build, s, every) is not None]
    assert [s for s in kept if not _said_unsure(s, unsure)] == []


def _said_unsure(selection: Selection, unsure: list[set[Offer]]) -> bool:
    """Whether a fact lacks of it, or of fewer of its swaps."""
    return any(few <= set(selection.swaps) for few in unsure)
