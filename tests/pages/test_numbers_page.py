"""Each number opens: links lead to anchors that exist, derivations give it again, and the data file
suffices.
"""

import importlib
import json
import pkgutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path
from types import ModuleType

import pytest

from builder.compute.figures.figure import Figure
from builder.pages import sections
from builder.pages.blocks import Cell, Number, Page, Row, Section, Span, Table
from builder.pages.derivations.numbers_page import numbers_page
from builder.pages.derivations.opened import short_anchors
from builder.pages.derivations.trace import trace_text
from builder.pages.drawing import Words
from builder.pages.numbers import shown_in
from builder.pages.sheet_input import SheetInput
from builder.pages.site.figures_data import figures_data
from builder.pipeline.check import Checked

NAMES = ("curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone")


def _section(module: ModuleType, name: str) -> Callable[..., Section]:
    """What a file of the sections gives: named for the file, with `_section` where another thing
    has that name.
    """
    found: Callable[..., Section] = getattr(module, name, None) or getattr(
        module, f"{name}_section"
    )
    return found


SECTIONS = tuple(
    _section(importlib.import_module(f"{sections.__name__}.{m.name}"), m.name)
    for m in pkgutil.iter_modules(sections.__path__)
    if not m.name.startswith("_") and m.name != "upkeep_lines"  # lines of a section, none itself
)


def _figures(sheet: SheetInput) -> tuple[Figure, ...]:
    return sheet.figures


def _walk(value: object) -> Iterator[object]:
    yield value
    if isinstance(value, tuple | list):
        for inner in value:
            yield from _walk(inner)
    elif is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            yield from _walk(getattr(value, field.name))


def _anchors(page: Page) -> set[str]:
    """By which other pages lead to a figure: those of rows, cells and sections."""
    return {s.anchor for s in _walk(page) if isinstance(s, Section | Row | Cell)}


@pytest.mark.parametrize("name", NAMES)
def test_every_number_shown_links_to_its_derivation(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    anchors = _anchors(numbers_page(sheet, _figures(sheet)))
    shown = [n for make in SECTIONS for n in _walk(make(sheet)) if isinstance(n, Number)]
    assert len(shown) > 100
    assert [n for n in shown if not n.anchor or n.anchor not in anchors] == []
    words = [w for make in SECTIONS for w in _walk(make(sheet)) if isinstance(w, Words)]
    links = [w.link for w in words if "numbers/" in w.link]
    assert links and all(link.partition("#")[2] in anchors for link in links)


@pytest.mark.parametrize("name", NAMES)
def test_no_two_anchors_of_the_numbers_page_are_alike_and_none_leads_nowhere(
    demo: Checked, name: str
) -> None:
    sheet = demo.sheets[name]
    page = numbers_page(sheet, _figures(sheet))
    kinds = Row | Section | Cell
    all_anchors = [r.anchor for r in _walk(page) if isinstance(r, kinds) and r.anchor]
    assert len(all_anchors) == len(set(all_anchors))
    links = [s.link for s in _walk(page) if hasattr(s, "link") and s.link.startswith("#")]
    assert links and {link[1:] for link in links} <= set(all_anchors)


@pytest.mark.parametrize("name", NAMES)
def test_one_key_is_one_number(demo: Checked, name: str) -> None:
    """Two figures of one key with two values would make a link lie."""
    sheet = demo.sheets[name]
    seen: dict[str, float] = {}
    for figure in _figures(sheet):
        for step in figure.derivation:
            assert seen.setdefault(step.key, step.value) == step.value, step.key
    assert not {u.key for u in sheet.unknown} & set(seen)


@pytest.mark.parametrize("name", NAMES)
def test_each_derivation_gives_its_number_again(demo: Checked, name: str) -> None:
    again: dict[str, float] = {}
    for figure in _figures(demo.sheets[name]):
        if figure.formula is None:
            again[figure.key] = figure.value
        else:
            again[figure.key] = figure.formula.function(*(again[i.key] for i in figure.inputs))
        assert again[figure.key] == pytest.approx(figure.value, rel=1e-12, abs=1e-15), figure.key


REBUILD = """
import importlib, inspect, json, math, pkgutil, sys
import builder.compute.formulas as package
from builder.compute.figures import sums
functions = {"add": sums.add, "subtract": sums._subtract}
for found in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
    functions.update(inspect.getmembers(importlib.import_module(found.name), inspect.isfunction))
data = json.load(open(sys.argv[1], encoding="utf-8"))
values = {k: v["value"] for k, v in data["leaves"].items()}
figures = data["figures"]
def value(key):
    if key not in values:
        given = [value(i) for i in figures[key]["inputs"]]
        values[key] = functions[figures[key]["function"]](*given)
    return values[key]
slopes = {k: {k: 1.0} for k in data["leaves"]}
def slope(key):
    if key not in slopes:
        out = {}
        for part, i in zip(figures[key]["partials"], figures[key]["inputs"]):
            for leaf, s in slope(i).items():
                out[leaf] = out.get(leaf, 0.0) + part * s
        slopes[key] = out
    return slopes[key]
out = {}
for key in figures:
    square = sum((s * data["leaves"][leaf]["spread"]) ** 2 for leaf, s in slope(key).items())
    kept = {leaf: s for leaf, s in slope(key).items() if data["leaves"][leaf]["spread"]}
    out[key] = [value(key), math.sqrt(square), kept]
json.dump(out, sys.stdout)
"""


@pytest.mark.parametrize("name", ["dipper", "curlew"])
def test_the_data_file_alone_rebuilds_values_and_slopes_in_another_process(
    demo: Checked, name: str, tmp_path: Path, root: Path
) -> None:
    sheet = demo.sheets[name]
    figures = _figures(sheet)
    file = tmp_path / "sheet.json"
    file.write_text(json.dumps(figures_data(sheet, figures), allow_nan=False), "utf-8")
    command = [sys.executable, "-c", REBUILD, str(file)]
    rebuilt = json.loads(
        subprocess.run(command, capture_output=True, check=True, text=True, cwd=root).stdout
    )
    made = [f for f in figures if f.formula is not None]
    assert len(made) == len(rebuilt) > 100
    for figure in made:
        value, spread, slopes = rebuilt[figure.key]
        assert value == pytest.approx(figure.value, rel=1e-12, abs=1e-15)
        assert spread == pytest.approx(figure.spread, rel=1e-9, abs=1e-15)
        assert slopes == pytest.approx(figure.slopes, rel=1e-9, abs=1e-15)


def _text(row: Row) -> str:
    return " ".join(getattr(p, "text", "") for c in row.cells for p in c.pieces)


def _shown(page: Page) -> dict[str, tuple[Cell, str]]:
    """The cell of each figure's value by its anchor, and all words that say what it is of: its row,
    the heading above it, the heading of its column.
    """
    out: dict[str, tuple[Cell, str]] = {}
    for table in (t for t in _walk(page) if isinstance(t, Table)):
        group = ""
        for row in table.rows:
            group = _text(row) if row.kind == "group" else group
            if row.kind == "":
                out[row.anchor] = row.cells[1], f"{group} {_text(row)}"
            for cell, column in zip(row.cells[1:], table.columns[1:], strict=False):
                if cell.anchor:
                    out[cell.anchor] = cell, f"{column.heading} {_text(row)}"
    return out


@pytest.mark.parametrize("name", NAMES)
def test_each_row_of_a_battery_names_it(demo: Checked, name: str) -> None:
    """Under its own words or those of the heading above it."""
    sheet = demo.sheets[name]
    found = _shown(numbers_page(sheet, _figures(sheet)))
    seen = 0
    for anchor, (_, words) in found.items():
        steps = anchor.split("/")
        if steps[:2] == [name, "flight"] and len(steps) > 3:
            seen += 1
            assert f"battery {steps[2]}" in words.lower(), anchor
    assert seen > 30


@pytest.mark.parametrize("name", NAMES)
def test_what_a_row_takes_by_column_is_in_the_same_column_of_the_row_that_it_leads_to(
    demo: Checked, name: str
) -> None:
    """A symbol beside likes leads to one row for all columns: each figure's input has to be there."""
    sheet = demo.sheets[name]
    by_anchor = {f.anchor: f for f in _figures(sheet)}
    tables = [t for t in _walk(numbers_page(sheet, _figures(sheet))) if isinstance(t, Table)]
    rows = {r.anchor: r for t in tables for r in t.rows if r.anchor}
    checked = 0
    for row in (r for t in tables if len(t.columns) > 3 for r in t.rows):
        if not any(c.anchor in by_anchor for c in row.cells):
            continue
        spans = [p for p in row.cells[-1].pieces if isinstance(p, Span)]
        if {" | ", "all of ", "the list of "} & {p.text for p in spans}:
            continue  # what differs is listed column by column
        links = [p.link[1:] for p in spans]
        beside = [rows[a] for a in links if a in rows and len(rows[a].cells) == len(row.cells)]
        for other in beside:
            for mine, its in zip(row.cells[1:-1], other.cells[1:-1], strict=True):
                if mine.anchor:
                    inputs = {i.anchor for i in by_anchor[mine.anchor].inputs}
                    assert its.anchor in inputs, (mine.anchor, its.anchor)
                    checked += 1
    assert checked > 30 or name == "turnstone"  # one battery, no flights: nothing beside it


@pytest.mark.parametrize("name", NAMES)
def test_a_row_gives_its_value_to_the_digits_of_its_spread(demo: Checked, name: str) -> None:
    """Two figures of the spread at most (GUM, JCGM 100:2008, 7.2.6), and as many decimals before it;
    the value itself is within half a step of what is shown.
    """
    sheet = demo.sheets[name]
    found = _shown(numbers_page(sheet, _figures(sheet)))
    checked = 0
    for figure in _figures(sheet):
        cell = found.get(figure.anchor, (Cell(), ""))[0]
        words = str(getattr(cell.pieces[0], "text", "")) if cell.pieces else ""
        if "±" not in words:
            continue
        value, _, rest = words.partition(" ± ")
        spread = rest.split(" ")[0]
        assert len(value.partition(".")[2]) == len(spread.partition(".")[2]), figure.key
        digits = spread.replace(".", "").lstrip("0")
        assert len(digits) <= 2 or "." not in spread, (figure.key, spread)
        _, factor, _ = shown_in(figure)
        step = 10.0 ** -len(value.partition(".")[2])
        short = figure.value * factor - float(value.replace("\u2212", "-"))
        # a timer is cut: who sets one by it reads none that is longer
        low, high = (0.0, 1.0) if figure.key.endswith("/timer") else (-0.5001, 0.5001)
        assert low * step <= short <= high * step, figure.key
        checked += 1
    assert checked > 100


def test_short_anchors_are_distinct_and_hang_on_their_key_alone() -> None:
    keys = [f"dipper/made-up/{i}" for i in range(3000)]
    short = short_anchors(keys)
    assert len(set(short.values())) == len(keys)
    alone = short_anchors(keys[:1])
    assert short[keys[0]].startswith(alone[keys[0]])
    assert not {"read", "unknown", "formulas"} & set(short.values())


def test_a_trace_ends_at_what_was_weighed(demo: Checked) -> None:
    text = trace_text(demo.sheets["dipper"].results.mass.dry_sum)
    assert text.startswith("dipper/mass/dry-sum\n")
    assert "[dipper/build.yaml, parts, motor, each_weighed]" in text
    assert "Where the spread comes from:" in text


def test_shares_of_the_spread_add_up(demo: Checked) -> None:
    for figure in _figures(demo.sheets["curlew"]):
        shares = figure.contributions()
        assert not shares or sum(s for _, s in shares) == pytest.approx(1.0)


def test_pages_cite_no_line_numbers(demo: Checked) -> None:
    page = numbers_page(demo.sheets["dipper"], _figures(demo.sheets["dipper"]))
    tables = [t for t in _walk(page) if isinstance(t, Table)]
    assert tables and "yaml:" not in str(tables)
