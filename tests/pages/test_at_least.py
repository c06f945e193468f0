"""What leaves something out says so wherever it stands: on the front page, in the table, side by
side, in words.
"""

from pathlib import Path
from shutil import copytree

import pytest

from builder.compute.compare.difference import difference_of
from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import MaybeFigure, Unknown, apply, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import difference, total
from builder.compute.formulas.rotors.flying import thrust_over_weight
from builder.compute.formulas.weight.mass_lines import pieces_mass
from builder.model.values.measures import Money
from builder.pages.blocks import Page, Section, Table
from builder.pages.page_text import words
from builder.pages.sections.at_a_glance import at_a_glance
from builder.pages.site.all_builds import all_builds_page, front_page
from builder.pages.site.site_pages import site_pages
from builder.pages.summaries.summarise import summarise
from builder.pages.summaries.summary import Summary
from builder.pipeline.check import Checked, check_workspace
from tests.pages.pair_page import pair_page
from tests.workspace_edits import ROOT, without_a_camera_known

pytestmark = pytest.mark.slow  # takes long

TEN = leaf("ten", "Ten grams", 0.010, "kg")
OPEN = total("sum", "Sum", "kg", [TEN, Unknown("odd", "Odd part", ("mass of Odd part",))])


@pytest.fixture(scope="module")
def lacking(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    workspace = tmp_path_factory.mktemp("lacking")
    copytree(ROOT / "builds", workspace / "builds")
    without_a_camera_known(workspace)
    return check_workspace(workspace)


def _rows(page: Page, anchor: str) -> dict[str, list[str]]:
    for section in page.sections:
        for block in section.blocks:
            if isinstance(block, Table) and block.anchor == anchor:
                return {
                    words(r.cells[0].pieces): [_with_note(c) for c in r.cells[1:]]
                    for r in block.rows
                }
    raise AssertionError(anchor)


def _with_note(cell: object) -> str:
    pieces, note = cell.pieces, cell.note  # type: ignore[attr-defined]
    return " | ".join(x for x in (words(pieces), note) if x)


@pytest.mark.parametrize(
    ("figure", "said"),
    [
        (TEN, ""),
        (OPEN, "at least"),
        (Unknown("odd", "Odd part", ("mass",)), ""),
        (
            apply("four", "Four", formula(pieces_mass), OPEN, leaf("n", "Count", 4.0, "1")),
            "at least",
        ),
        (difference("left", "Left", "kg", leaf("limit", "Limit", 0.25, "kg"), OPEN), "at most"),
        (difference("gap", "Gap", "kg", OPEN, total("other", "Other", "kg", [OPEN, TEN])), "about"),
        (
            apply(
                "ratio", "Ratio", formula(thrust_over_weight), leaf("f", "Thrust", 9.0, "N"), OPEN
            ),
            "at most",
        ),
        (total("again", "Again", "kg", [OPEN, TEN]), "at least"),
    ],
)
def test_the_slope_says_which_way_it_may_err(figure: MaybeFigure, said: str) -> None:
    assert reading_of(figure) == said


def test_the_front_page_and_the_table_say_it(lacking: Checked) -> None:
    summaries = [summarise(s) for s in lacking.sheets.values()]
    kept = [Summary.from_plain(s.as_plain()) for s in summaries]  # as a manifest gives it back
    site = site_pages(lacking.workspace.site)
    for builds in (summaries, kept):
        front = _rows(front_page(builds, site), "all")
        dipper = front["Dipper 3"]
        assert dipper[2].startswith("at least 149.0 g")
        assert dipper[3].startswith("at least")
        assert dipper[5].startswith("at least ") and dipper[5].endswith(" EUR")
        assert front["Redshank 5"][5].startswith("at least ")
        assert front["Redshank 5"][2].startswith("409.9 g")  # it was weighed: nothing is left out
        assert "at least" not in " ".join(front["Pipit"])
        row = _rows(all_builds_page(builds, (), site), "all")["Dipper 3"]
        assert [c.startswith("at least") for c in row] == [
            False,
            False,
            True,
            True,
            False,
            True,
            True,
            False,
            False,
        ]


def test_a_limit_is_not_known_to_be_kept_while_a_weight_is_missing(lacking: Checked) -> None:
    section: Section = at_a_glance(lacking.sheets["dipper"])
    facts = {k: _with_note(c) for b in section.blocks for k, c in getattr(b, "items", ())}
    margin = facts["To the limit: 250 g class"]
    assert margin.startswith("not known | weight of Weirside small camera is missing; at least ")
    assert margin.endswith("with battery large")
    assert facts["Parts of this build"].endswith(" | no price for 1 part")


def test_side_by_side_says_it_in_the_cells_and_in_the_first_line(lacking: Checked) -> None:
    page = pair_page(lacking.sheets["dipper"], lacking.sheets["redshank"])
    cost = _rows(page, "figures-money")["Parts of the build"]
    assert cost[0].startswith("at least ") and cost[1].startswith("at least ")
    assert cost[2].endswith(" | leaves out what is not known")
    dry = _rows(page, "figures-weight")["Dry weight"]
    assert dry[0].startswith("at least ") and not dry[1].startswith("at least")
    assert "leaves out what is not known" in dry[2]
    assert "g heavier dry, as far as weights are known" in page.summary
    assert "EUR more, as far as prices are known" in page.summary


def test_a_part_of_unknown_price_makes_no_difference_of_money(lacking: Checked) -> None:
    """Curlew's camera has a price, the Dipper's has none: what the swap costs is not known. The
    same part costs itself.
    """
    sides = {name: (s.build, s.results) for name, s in lacking.sheets.items()}
    for other, money in (("curlew", None), ("redshank", 0)):
        found = difference_of(*sides["dipper"], *sides[other])
        camera = next(p for p in found.parts if p.key == "camera")
        assert (camera.money.minor if isinstance(camera.money, Money) else None) == money
        assert isinstance(camera.money, Unknown if money is None else Money)
    assert not camera.differs


def test_what_is_known_in_full_says_nothing_of_it(demo: Checked, root: Path) -> None:
    summaries = [summarise(s) for s in demo.sheets.values()]
    site = site_pages(demo.workspace.site)
    page = pair_page(demo.sheets["dipper"], demo.sheets["redshank"])
    texts = [
        c
        for p in (front_page(summaries, site), all_builds_page(summaries, (), site))
        for r in _rows(p, "all").values()
        for c in r
    ]
    texts += [
        c for a in ("figures-money", "figures-weight") for r in _rows(page, a).values() for c in r
    ]
    assert not any("at least" in t or "leaves out" in t for t in texts)
    assert "as far as" not in page.summary
