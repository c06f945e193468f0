"""Values that are taken where nobody says another are in one file, each with its unit and where it
is from; code names the entry.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
import scipy.constants
import scipy.stats

import builder
from builder.compute.formulas.constants import (
    SEA_LEVEL_DENSITY,
    SEA_LEVEL_PRESSURE,
    UPPER_TENTH,
    ZERO_CELSIUS,
)
from builder.load.assumed import assumed, assumed_list, assumed_values
from builder.pages.site.assumed_section import shown_value
from builder.pages.site.reference_page import rules_page
from tests.units import UNITS

pytestmark = pytest.mark.slow  # takes long

CODE = Path(builder.__file__).parent
READS = {"assumed", "assumed_list", "assumed_topic"}
# Where a value is from: one of these, a published source, or a definition.
NO_SOURCE = "common practice, no source"


def _calls() -> Iterator[tuple[str, ast.Call]]:
    for path in sorted(CODE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            called = node.func if isinstance(node, ast.Call) else None
            if isinstance(called, ast.Name) and called.id in READS and isinstance(node, ast.Call):
                yield f"{path.relative_to(CODE)}:{node.lineno}", node


def test_every_entry_is_used_and_none_is_unknown() -> None:
    named: set[str] = set()
    for place, call in _calls():
        (key,) = call.args
        assert isinstance(key, ast.Constant), f"{place}: the key is to be written out"
        given = str(key.value)
        of_topic = {k for k, v in assumed_values().items() if v.topic == given}
        named |= of_topic or {given}
    assert named == set(assumed_values())


def test_each_entry_has_a_unit_that_others_know_too() -> None:
    """Pint parses it, from its own table of units: SI, but degrees for angles and rates by the
    hour; °C and dB are units of the SI and beside it (SI Brochure, 9th edition, tables 4 and 8).
    """
    for unit in {value.unit for value in assumed_values().values()}:
        one = UNITS.Quantity(1.0, UNITS.parse_units(unit))
        assert unit in ("deg", "1/h", "degC", "dB") or one.to_root_units().magnitude in (
            1.0,
            1000.0,
        ), unit


def test_each_entry_says_what_it_is_and_where_it_is_from() -> None:
    known = (NO_SOURCE, "from memory", "definition", "data sheets")
    for value in assumed_values().values():
        assert len(value.what) > 10, value.key
        published = any(c.isdigit() for c in value.source)
        assert published or any(words in value.source for words in known), value.key


def test_one_number_and_several_are_asked_for_apart() -> None:
    assert assumed("first power-up/safe-volts") == 1.0
    assert assumed_list("first power-up/beep-below") == (20.0, 50.0)
    with pytest.raises(ValueError, match="too many"):
        assumed("first power-up/beep-below")
    with pytest.raises(KeyError):
        assumed("first power-up/no-such-thing")


def test_the_page_of_rules_shows_each_with_its_source() -> None:
    section = next(s for s in rules_page().sections if s.anchor == "assumed")
    rows = [row for table in section.blocks for row in getattr(table, "rows", ())]
    shown = {row.cells[0].pieces[0].text: row for row in rows}
    assert len(rows) == len(assumed_values())
    assert shown["screw-clear"].cells[1].pieces[0].text == "0.3 mm"
    assert shown["safe-volts"].cells[3].pieces[0].text == NO_SOURCE


def test_values_are_shown_in_the_unit_of_the_pages() -> None:
    shown = {key: shown_value(value) for key, value in assumed_values().items()}
    assert shown["battery/air-travel"] == "100, 160 Wh"
    assert shown["mounting/quarter-turn"] == "1°"
    assert shown["first power-up/pad-tight"] == "0.5 mm"
    assert shown["supply/long-peak"] == "1 s"
    assert shown["battery/charge-rate"] == "5 per hour"
    assert shown["flight/altitude-spread"] == "30 m"
    assert shown["soldering/iron-to"] == "350, 380, 420 °C"


# Numbers that are no assumption about the world: how closely floats are compared, how far a search
# goes, what no page shows.
NO_ASSUMPTION = {"_EXACT", "EXACT", "_DUST", "SMALLEST", "_WIDEST", "_RELATIVE_STEP"}
# Definitions: the axial ratio of straight and round waves, the prefixes of the SI.
DEFINED = {"AXIS_RATIO", "_SCALE"}


def _literals(path: Path) -> Iterator[str]:
    """Names at the top of a module that are given a number with a decimal point."""
    for node in ast.parse(path.read_text("utf-8")).body:
        if not isinstance(node, ast.Assign | ast.AnnAssign) or node.value is None:
            continue
        targets = node.targets if isinstance(node, ast.Assign) else [node.target]
        names = {n.id for t in targets for n in ast.walk(t) if isinstance(n, ast.Name)}
        inside = [n.value for n in ast.walk(node.value) if isinstance(n, ast.Constant)]
        if any(isinstance(v, float) for v in inside) and not names & (NO_ASSUMPTION | DEFINED):
            yield from names


def test_no_other_file_of_compute_and_rules_holds_such_a_value() -> None:
    """Formulas may: their constants are of physics, and each docstring names its source."""
    paths = [p for room in ("compute", "rules") for p in (CODE / room).rglob("*.py")]
    found = {
        str(p.relative_to(CODE)) for p in paths if "formulas" not in p.parts and list(_literals(p))
    }
    assert not found, "put these values into builder/assumed.toml"


def test_what_is_laid_down_is_as_others_have_it() -> None:
    assert scipy.constants.zero_Celsius == ZERO_CELSIUS
    assert scipy.constants.atm == SEA_LEVEL_PRESSURE
    assert scipy.stats.norm.ppf(0.9) == pytest.approx(UPPER_TENTH, rel=1e-12)
    # The density follows from the two and the gas constant of dry air (ISO 2533: 287.05287 J/kg/K).
    by_gas_law = SEA_LEVEL_PRESSURE / 287.05287 / 288.15
    assert by_gas_law == pytest.approx(SEA_LEVEL_DENSITY, abs=1e-6)
