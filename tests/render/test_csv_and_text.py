"""parts.csv against RFC 4180 and the OWASP note on formula injection; the text to paste under a
recording.
"""

import csv
import io
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from builder.compute.compute import compute
from builder.load.files import load
from builder.model.build import Build
from builder.model.read.workspace import read_workspace
from builder.pages.blocks import Page
from builder.pages.sheet_input import SheetInput
from builder.pages.site.site_pages import SitePages
from builder.render.data.csv_and_text import description_txt, harmless_cell, parts_csv
from builder.rules.judge import Verdict
from tests.compute.small_workspace import one_build


@pytest.fixture(scope="module")
def build(root: Path) -> Build:
    return read_workspace(load(root)).builds["dipper"]


def _sheet(build: Build) -> SheetInput:
    return SheetInput(build, compute(build), Verdict((), (), ()))


def _rows(content: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline=""), strict=True))


def test_lines_end_and_fields_are_quoted_as_the_standard_says(build: Build) -> None:
    content = parts_csv(_sheet(build))
    assert content.startswith(b"\xef\xbb\xbf")  # without it spreadsheets guess another encoding
    assert content.count(b"\n") == content.count(b"\r\n")
    rows = _rows(content)
    assert {len(r) for r in rows} == {len(rows[0])}
    assert len(rows) == 1 + len(build.parts) + len(build.packs)


def test_counts_masses_and_prices_are_those_of_the_sources(build: Build) -> None:
    heads, *rows = _rows(parts_csv(_sheet(build)))
    by_place = {r[0]: dict(zip(heads, r, strict=True)) for r in rows}
    for key, fitted in build.parts.items():
        row = by_place[key]
        assert (row["count"], row["name"]) == (str(fitted.count), fitted.part.name)
        best = fitted.part.mass.best() if fitted.part.mass is not None else None
        if best is not None:
            assert float(row["grams each"]) == pytest.approx(1000 * best[1].value, abs=0.005)
        price = fitted.use.price or fitted.part.price
        if price is not None and price.each is not None:
            assert Decimal(row["price each"]).scaleb(price.each.digits) == price.each.minor


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t=", "\r=", "＝"])
def test_no_cell_starts_a_formula(build: Build, start: str) -> None:
    name = f'{start}HYPERLINK("https://evil.example";"x"),\n2'
    key, fitted = next(iter(build.parts.items()))
    evil = replace(fitted, part=fitted.part.model_copy(update={"name": name}))
    rows = _rows(parts_csv(_sheet(replace(build, parts={**build.parts, key: evil}))))
    assert rows[1][2] == "'" + name
    for row in rows:
        assert not [c for c in row if c.startswith(("=", "+", "-", "@", "\t", "\r", "＝"))]


def test_harmless_text_is_left_alone() -> None:
    assert harmless_cell("5 - 6 V = fine") == "5 - 6 V = fine"


def test_the_description_names_every_part_and_ends_with_the_caution(
    build: Build, site: SitePages, page_of: Callable[..., Page]
) -> None:
    text = description_txt(_sheet(build), (page_of(),), site).decode()
    for fitted in build.parts.values():
        assert fitted.part.name in text
    for word in ("DANGER", "WARNING", "CAUTION", "NOTICE"):
        assert f"{word}: Hot iron" in text
    assert "WARNING: Propellers off" in text  # it stands at a step
    assert "Local rules and licensed practice come first." in text
    for chapter in build.source.chapters:
        assert f"{chapter.at} {chapter.text}" in text


def test_a_price_that_is_known_by_the_bag_has_a_column() -> None:
    shelf = "s: {kind: hardware, name: Screw, mass: 0.2 g, price: {pack: 4.50 EUR, sold_in: 50}}\n"
    made = one_build(shelf, "title: T\nparts: {screw: {use: s, count: 4}}\n")
    heads, row = _rows(parts_csv(_sheet(made)))
    said = dict(zip(heads, row, strict=True))
    assert (said["price of a bag"], said["sold in"], said["currency"]) == ("4.50", "50", "EUR")
    assert said["price each"] == ""
