"""Nothing that is written goes unread: each field of the source has a figure or a rule that reads
it, or stands on a list with its reason.
"""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import builder.model.source.build_source  # the classes have to be there
from builder.load.field_readers import effects, readers
from builder.model.kinds import KINDS
from builder.model.site import Site
from builder.model.source.build_source import BuildSource
from builder.model.source.describe import Either, Group, ListOf, MapOf, Value, group
from builder.pipeline.check import Checked
from builder.rules.field_register import (
    SHOWN_ONLY,
    STRUCTURE,
    WORDS,
    field_of,
    shown_because,
)
from builder.rules.find_rules import all_rules
from builder.rules.not_looked_at import not_looked_at
from tests.benchmarks.field_readers import added

PACKAGE = Path(builder.__file__).parent
MOST_SHOWN_ONLY = 60
OF_PAGES = (
    "Site",
    "AtMost",
    "ShownUnits",
)  # settings of the site: how pages look, and how much is taken


def _keys(value: Value, seen: set[str]) -> Iterator[str]:
    if isinstance(value, ListOf | MapOf):
        yield from _keys(value.item, seen)
    elif isinstance(value, Either):
        for each in value.values:
            yield from _keys(each, seen)
    elif isinstance(value, Group) and value.name not in seen:
        seen.add(value.name)
        for key in value.keys:
            yield field_of(value.name, key.name)
            yield from _keys(key.value, seen)


@cache
def fields() -> frozenset[str]:
    """Every field that a person may write."""
    seen: set[str] = set()
    tops = [group(c) for c in (BuildSource, Site, *KINDS.values())]
    return frozenset(f for top in tops for f in _keys(top, seen))


def test_every_field_is_read_or_says_why_not() -> None:
    known = {*readers(), *STRUCTURE}
    left = {f for f in fields() - known if not shown_because(f)}
    assert {f for f in left if f.partition(".")[0] not in OF_PAGES} == set()
    assert len(fields()) > 550


def test_what_is_only_shown_is_a_short_list_and_true() -> None:
    assert len(SHOWN_ONLY) <= MOST_SHOWN_ONLY
    assert {f for f in SHOWN_ONLY if readers().get(f)} == set()
    assert set(SHOWN_ONLY) <= fields()
    assert all(SHOWN_ONLY.values()) and all(WORDS.values())


def test_a_reader_that_is_named_is_there_and_names_the_field() -> None:
    """Held against the text of the code, which the recording did not look at."""
    codes = {r.code for r in all_rules()}
    names: dict[str, set[str]] = {}
    for path in (*PACKAGE.glob("compute/*/**/*.py"), *PACKAGE.glob("rules/*/*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        said = {n.attr for n in ast.walk(tree) if isinstance(n, ast.Attribute)}
        said |= {
            n.value for n in ast.walk(tree) if isinstance(n, ast.Constant) if type(n.value) is str
        }
        room = Path(*path.relative_to(PACKAGE).parts[:-1][:2])
        code = f"{path.parent.name}/{path.stem.replace('_', '-')}"
        names.setdefault(code if room.parts[0] == "rules" else str(room), set()).update(said)
        names.setdefault(str(room), set()).update(said)
    for field, who in readers().items():
        for one in who:
            assert one in codes or one in names, (field, one)


def test_the_reading_of_one_rule_takes_no_other_reader_away() -> None:
    before = {"Pack.cells": ("compute/flight", "pack/a"), "Pack.charge": ("pack/b",)}
    new = {"Pack.cells": ["pack/a", "pack/c"], "Motor.kv": ["compute/flight"]}
    told = added(before, new)
    assert list(told) == ["Motor.kv", "Pack.cells", "Pack.charge"]
    assert told["Pack.cells"] == ["compute/flight", "pack/a", "pack/c"]
    assert told["Pack.charge"] == ["pack/b"] and told["Motor.kv"] == ["compute/flight"]


def test_what_a_field_changes_is_told_of_rules_and_fields_that_are_there() -> None:
    codes = {r.code for r in all_rules()}
    known = {f for f in effects() if f in fields() or f in readers()}
    assert set(effects()) == known
    assert {c for who in effects().values() for c in who} <= codes


def test_what_a_build_says_and_nothing_reads_is_listed(demo: Checked) -> None:
    said = {name: not_looked_at(sheet.build) for name, sheet in demo.sheets.items()}
    assert "esr of capacitor" in said["dipper"] and "ripple of capacitor" in said["dipper"]
    assert not any("mass" in words for words in said["dipper"])
