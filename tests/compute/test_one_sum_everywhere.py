"""Every figure is the same in every Python: from 3.12 on the built-in `sum` of floats carries what
rounding loses along (What's New In Python 3.12, "Other Language Changes"), before it does not.
"""

import builtins
from collections.abc import Iterable
from math import fsum
from typing import Any

import pytest

from builder.pages.site.figures_data import figures_data
from builder.pipeline.check import Checked, check_workspace
from tests.workspace_edits import ROOT

pytestmark = pytest.mark.slow  # takes long


def _otherwise(terms: Iterable[Any], start: Any = 0) -> Any:
    """Floats are added exactly where this Python does not, one by one where it does."""
    given = list(terms)
    if not any(isinstance(term, float) for term in given):
        return _SUM(given, start)
    if _SUM([0.1] * 10) == 1.0:
        total = start
        for term in given:
            total = total + term
        return total
    return fsum([start, *given])


_SUM = builtins.sum


def test_no_figure_rests_on_the_sum_of_one_python(
    demo: Checked, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(builtins, "sum", _otherwise)
    again = check_workspace(ROOT)
    for name, sheet in demo.sheets.items():
        other = again.sheets[name]
        assert figures_data(other, other.figures) == figures_data(sheet, sheet.figures), name
