"""A part's page shows every public field that the part says, in the unit in which it was written, and
nothing that the register keeps back.
"""

import pytest

from builder.pages.blocks import Illustration
from builder.pages.page_text import words
from builder.pages.site.part_page import part_page
from builder.pages.tables.part_facts import bench_blocks, kind_facts, said_fields
from builder.pipeline.check import Checked
from builder.rules.public_fields import is_public

# Part, fact, and what builds/shelf says of it.
SAID = (
    ("motor-1404", "Kv", "rpm/V"),
    ("pack-4s-650", "Capacity", "650 mAh"),
    ("pack-4s-650", "Cells", "4S"),
    ("pack-4s-650", "Resistance", "8 mohm (measured)"),
    ("pack-4s-650", "Discharge", "75C"),
    ("pack-4s-650", "Connector", "type two-blade 30 A, gender socket, continuous 30 A, short 60 A"),
    ("pack-li-6s-4200", "Charge", "2.1 A"),
    ("motor-2507", "Pattern", "16 mm M3"),
    ("motor-2507", "No load", "0.9 A at 16 V"),
)


@pytest.mark.parametrize(("shelf", "fact", "said"), SAID)
def test_a_fact_is_in_the_unit_that_was_written(
    demo: Checked, shelf: str, fact: str, said: str
) -> None:
    table = kind_facts(demo.workspace.shelf[shelf].part)
    assert table is not None
    found = {words(r.cells[0].pieces): words(r.cells[1].pieces) for r in table.rows}
    assert said in found[fact]


def test_every_public_field_of_every_part_has_words(demo: Checked) -> None:
    """No field that a part says is dropped for want of words, on the whole shelf."""
    for name, entry in demo.workspace.shelf.items():
        fields = said_fields(entry.part)
        assert all(is_public(type(entry.part), f) for f in fields)
        table = kind_facts(entry.part)
        rows = len(table.rows) if table is not None else 0
        said = [f for f in fields if getattr(entry.part, f) not in ((), {})]
        assert rows >= len(said), name


def test_a_motor_shows_the_curve_of_its_bench_test(demo: Checked) -> None:
    blocks = bench_blocks("motor-2507", demo.workspace.shelf["motor-2507"].part)
    curve = next(b for b in blocks if isinstance(b, Illustration))
    assert "up to 1507 g at 21.7 A" in curve.drawing.alt


def test_the_builds_lead(demo: Checked) -> None:
    page = part_page(demo.workspace.shelf["motor-2507"], ())
    assert [s.anchor for s in page.sections][:3] == ["builds", "about", "bench"]
