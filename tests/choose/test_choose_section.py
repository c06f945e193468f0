"""The section of choices: its rows are what nothing beats, its numbers those of the choices, and what is
not known is said and never in the table.
"""

import math
from dataclasses import replace

from builder.compute.figures.figure import Figure
from builder.pages.blocks import Bullets, Fold, Illustration, Paragraph, Section, Table
from builder.pages.choose.choose_section import choose_section
from builder.pages.drawing import Circle, Line, Words
from builder.pages.page_map import CHOOSE, page_with
from builder.pages.page_text import words
from builder.pipeline.check import Checked
from builder.rules.choose.answer import unbeaten
from builder.rules.choose.search import Choices
from builder.rules.judge_swap import judge_swap


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
    light_first = sorted([*now, *best], key=lambda one: one.figures.mass.value)
    for one, row in zip(light_first, table.rows, strict=True):
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


def test_a_single_fact_is_named_and_not_counted(demo: Checked) -> None:
    found = _choices(demo, "dipper")
    for many in (1, 2, 3, 5):
        lacking = ("the rain", "the wind", "the sun", "the moon", "the tide")[:many]
        unsure = tuple(replace(c, lacking=lacking) for c in found.right)
        section = choose_section(replace(found, right=(), now=(), unsure=unsure))
        bullets = next(b for b in section.blocks if isinstance(b, Bullets))
        said = words(bullets.items[0])
        assert "and 1 more" not in said
        assert all(fact in said for fact in lacking) == (many <= 3)


def test_a_search_that_was_cut_short_says_so(demo: Checked) -> None:
    found = _choices(demo, "dipper")
    section = choose_section(replace(found, whole=False))
    said = " ".join(words(b.pieces) for b in section.blocks if isinstance(b, Paragraph))
    assert "cut short" in said and "one that passed beats them" not in said


def test_the_first_row_with_enough_minutes_is_the_lightest(demo: Checked) -> None:
    """The rows of the build as it is stand at their weight too, and not on top."""
    for name in ("redshank", "curlew", "dipper"):
        rows = _table(choose_section(_choices(demo, name))).rows
        masses = [float(row.cells[2].sort) for row in rows if row.cells[2].sort is not None]
        assert len(masses) == len(rows) >= 1
        assert masses == sorted(masses)


def test_what_a_choice_loses_stands_with_what_it_changes(demo: Checked) -> None:
    """The whole of the rules is asked anew of the choice's build; what is new there is said here."""
    seen = 0
    for name in ("redshank", "curlew", "dipper"):
        found, before = _choices(demo, name), demo.sheets[name].verdict
        old = {str(f.message) for f in before.findings}
        folds = [b for b in choose_section(found).blocks if isinstance(b, Fold)]
        swapped = [c for c in unbeaten(found) if c.selection.swaps]
        for fold, one in zip(folds, swapped, strict=True):
            _, judged = judge_swap(one.build, demo.sheets[name].results.flight.style)
            new = {str(f.message) for f in judged.remarks} - old
            bullets = fold.blocks[0]
            assert isinstance(bullets, Bullets)
            said = {words(i).removeprefix("New remark: ") for i in bullets.items}
            assert new <= said
            assert ("have no new remark" in " ".join(said)) == (not new)
            seen += len(new)
    assert seen


def test_no_count_of_flights_where_none_was_counted(demo: Checked) -> None:
    for name in ("redshank", "curlew", "dipper"):
        style = demo.sheets[name].results.flight.style
        note = _table(choose_section(_choices(demo, name))).note
        assert ("Eight flights of ten" in note) == (style.used > 0)
        assert style.note in note
    used = [demo.sheets[n].results.flight.style.used for n in ("redshank", "curlew", "dipper")]
    assert min(used) == 0 < max(used)


def test_each_label_is_beside_its_own_dot_or_a_line_leads_to_it(demo: Checked) -> None:
    """Letters are taken as 0.6 of their size wide, which is wider than most are."""
    seen = 0
    for sheet in demo.sheets.values():
        section = choose_section(_choices(demo, sheet.build.name))
        for picture in (b for b in section.blocks if isinstance(b, Illustration)):
            items = picture.drawing.items
            dots = {c.link.removeprefix("#choice-"): c for c in items if isinstance(c, Circle)}
            led = {i.points[0] for i in items if isinstance(i, Line) and i.tone == "soft"}
            for label in (i for i in items if isinstance(i, Words) and ", " in i.text):
                own = dots[label.text.split(", ")[0]]
                wide = 0.55 * label.size * len(label.text)
                left = label.x - wide if label.anchor == "end" else label.x
                near = {
                    mark: math.dist(
                        (min(max(c.x, left), left + wide), label.y - label.size / 3), (c.x, c.y)
                    )
                    for mark, c in dots.items()
                }
                seen += 1
                if (own.x, own.y) not in led:
                    nearest = min(near, key=lambda mark: near[mark])
                    assert dots[nearest] is own, f"{sheet.build.name}: {label.text}"
    assert seen >= 4
