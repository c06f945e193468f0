"""`choose` on the demo's whole shelf against every selection there is: none that is lighter, cheaper or
longer in the air than all that were found keeps the rules, or it was said that a fact lacks.

Every selection is flown, weighed and priced, without a bound; those that none of the found ones
beats are computed whole and judged by every rule.
"""

import pytest

from builder.compute.choose.offers import Offer, Selection
from builder.compute.choose.on_demand import OnDemand
from builder.compute.choose.selected_build import selected_build
from builder.compute.choose.selections import every_selection
from builder.compute.choose.three_figures import three_figures
from builder.pipeline.check import Checked
from builder.rules.choose.search import choose_swaps, no_worse
from tests.choose.all_tried import ShelfEntries, point_of

pytestmark = pytest.mark.slow  # takes long


@pytest.mark.parametrize("name", ["pipit"])
def test_nothing_of_the_demos_shelf_is_missed(demo: Checked, name: str) -> None:
    sheet, shelf = demo.sheets[name], dict(demo.workspace.shelf)
    found = choose_swaps(sheet.build, shelf, sheet.results, sheet.verdict)
    assert found.whole
    right = [p for c in found.right if (p := c.figures.of_known) is not None]
    unsure = [set(c.selection.swaps) for c in found.unsure]
    every: ShelfEntries = {**sheet.build.shelf, **shelf}
    looked, better = 0, []
    for selection in every_selection(sheet.build, every):
        looked += 1
        made = selected_build(sheet.build, selection, every)
        point = three_figures(made, OnDemand(made, sheet.results.flight.style)).of_known
        if point is not None and not any(no_worse(p, point) for p in right):
            better.append(selection)
    assert looked == found.of > 1000
    kept = [s for s in better if point_of(sheet.build, s, every) is not None]
    assert [s for s in kept if not _said_unsure(s, unsure)] == []


def _said_unsure(selection: Selection, unsure: list[set[Offer]]) -> bool:
    """Whether a fact lacks of it, or of fewer of its swaps."""
    return any(few <= set(selection.swaps) for few in unsure)
