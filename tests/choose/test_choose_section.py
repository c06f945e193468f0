"""The section of choices: its rows are what nothing beats, its numbers those of the choices, and what is
not known is said and never in the table.
"""

from dataclasses import replace

from builder.compute.figures.figure import Figure
from builder.pages.blocks import Bullets, Fold, Illustration, Paragraph, Section, Table
from builder.pages.choose.choose_section import choose_section
from builder.pages.drawing import Circle
from builder.pages.page_map import CHOOSE, page_with
from builder.pages.page_text import words
from builder.pipeline.check import Checked
from builder.rules.choose.answer import unbeaten
from builder.rules.choose.search import Choices


def _choices(demo: Checked, name: str) -> Choices:
    found = demo.sheets[name].choices
    assert found is not None
    return found


def _table(section: Section) -> Table:
    return next(b for b in section.blocks if isinstance(b, Table))


def test_the_table_holds_what_nothing_beats_and_each_row_has_its_point(demo: Checked) -> None:
    found = _choices(demo, "dipper")
    section = choose_section(found)
    table, best = _table(section), unbeaten(found)
    now = [one for one in found.now if one not in best]
    assert len(table.rows) == len(now) + len(best) >= 2
    picture = next(b for b in section.blocks if isinstance(b, Illustration))
    circles = [i for i in picture.drawing.items if isinstance(i, Circle)]
    assert [c.link for c in circles] == [f"#{row.anchor}" for row in table.rows]
    for one, row in zip([*now, *best], table.rows, strict=True):
        assert row.cells[2].sort == one.figures.mass.value
        assert page_with(row.anchor) is CHOOSE


def test_each_choice_with_a_swap_opens_what_it_changes(demo: Checked) -> None:
    found = _choices(demo, "dipper")
    section = choose_section(found)
    folds = [b for b in section.blocks if isinstance(b, Fold)]
    swapped = [c for c in unbeaten(found) if c.selection.swaps]
    assert len(folds) == len(swapped) > 0
    bullets = folds[0].blocks[0]
    assert isinstance(bullets, Bullets)
    said = [words(item) for item in bullets.items]
    now, one = found.now[0].figures, swapped[0].figures
    assert isinstance(now.time, Figure) and isinstance(one.time, Figure)
    grams = 1000 * (one.mass.value - now.mass.value)
    assert f"{grams:+.1f} g" in said[-len(found.now)]
    assert f"{(one.time.value - now.time.value) / 60:+.1f} min" in said[-len(found.now)]


def test_what_is_not_known_is_said_and_is_in_no_row(demo: Checked) -> None:
    """The facts that the demo's choices have are taken away: none of them is a yes any more."""
    found = _choices(demo, "dipper")
    unsure = tuple(replace(c, lacking=("the weather",)) for c in found.right)
    doubted = replace(found, right=(), now=(), unsure=unsure)
    section = choose_section(doubted)
    assert not [b for b in section.blocks if isinstance(b, Table)]
    said = " ".join(words(b.pieces) for b in section.blocks if isinstance(b, Paragraph))
    assert "not known" in said


def test_a_search_that_was_cut_short_says_so(demo: Checked) -> None:
    found = _choices(demo, "dipper")
    section = choose_section(replace(found, whole=False))
    said = " ".join(words(b.pieces) for b in section.blocks if isinstance(b, Paragraph))
    assert "cut short" in said and "one that passed beats them" not in said
