"""A weight that lacks a part keeps no limit: 'not known' wherever a limit is judged, 'at least'
before the weight.

The Dipper without its scale readings and without the weight of its camera: what is known adds up to
less than 250 g, and a camera of ten grams would lift it over.
"""

import re
from pathlib import Path

import pytest
from lxml import html

from builder.pages.numbers import percent
from builder.pipeline.check import check_workspace


@pytest.fixture(scope="module")
def workspace(lacking_demo: Path) -> Path:
    return lacking_demo


def _page(workspace: Path, *where: str) -> html.HtmlElement:
    return html.parse(str(workspace.joinpath("site", *where, "index.html"))).getroot()


def _words(node: html.HtmlElement) -> str:
    return re.sub(r"\s+", " ", " ".join(node.itertext()))


def test_no_weight_of_it_is_over_so_that_only_the_missing_part_decides(workspace: Path) -> None:
    mass = check_workspace(workspace, ("dipper",)).sheets["dipper"].results.mass
    assert all(f.value < 0.249 and f.lacks for f in mass.all_up.values())


def test_every_row_of_the_limits_is_not_known(workspace: Path) -> None:
    rows = [
        _words(r)
        for r in _page(workspace, "dipper", "parts").get_element_by_id("limits").iter("tr")
    ]
    judged = [r for r in rows if "battery" in r]
    assert len(judged) == 4
    for row in judged:
        assert "not known: weight of" in row and "at least" in row
        assert not re.search(r"\bwithin\b|under 1|\bover\b", row), row


def test_the_short_sheet_does_not_say_that_it_keeps_a_limit(workspace: Path) -> None:
    words = _words(_page(workspace, "dipper").get_element_by_id("brief-weight"))
    assert "not known: weight of" in words
    assert not re.search(r"\bwithin\b|under 1", words)
    glance = _words(_page(workspace, "dipper").get_element_by_id("glance"))
    assert "not known" in glance and not re.search(r"\bbelow\b", glance)


def test_sizes_of_packs_are_not_judged_either(workspace: Path) -> None:
    sizes = _words(_page(workspace, "dipper", "flight").get_element_by_id("packs-by-size"))
    assert "250 g class not known" in sizes
    assert "within 250 g class" not in sizes


def test_a_curve_without_a_weight_marks_no_limit(workspace: Path) -> None:
    assert "is reached at" not in _words(_page(workspace, "dipper", "flight"))


@pytest.mark.parametrize(
    "pair", [("dipper", "redshank"), ("dipper", "pipit"), ("dipper", "dipper-light")]
)
def test_pairs_do_not_say_that_it_keeps_a_limit(workspace: Path, pair: tuple[str, str]) -> None:
    words = _words(_page(workspace, "compare", *pair))
    assert "whether dipper keeps 250 g class is not known" in words.casefold()
    assert not re.search(r"dipper keeps (250 g class|0\.55 lb)(?! is not known)", words)


def test_a_chance_that_lacks_a_weight_is_not_small(workspace: Path) -> None:
    margins = check_workspace(workspace, ("dipper",)).sheets["dipper"].results.margins
    assert {percent(m.chance_over).value for m in margins if m.pack == "small"} == {"unknown"}


def test_no_swap_is_said_to_keep_a_limit(workspace: Path) -> None:
    found = check_workspace(workspace, ("dipper",)).sheets["dipper"].alternatives.tried
    margins = [keeps for tried in found for _, _, _, keeps in tried.margins]
    assert margins and True not in margins
