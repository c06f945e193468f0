"""parts.csv (RFC 4180, UTF-8 with a mark for spreadsheets, no formula injection) and
description.txt.
"""

import csv
import io
from collections.abc import Iterable, Iterator
from decimal import Decimal

from builder.model.source.part import Part, Price
from builder.model.values.money_text import Money
from builder.pages.blocks import Notice, Page, Section, Step, Steps
from builder.pages.numbers import money
from builder.pages.sheet_input import SheetInput
from builder.pages.site.site_pages import SitePages
from builder.rounding import rounded

# What spreadsheets take for the start of a formula; the full-width forms as some of them fold
# those.
_TRIGGERS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_HEADINGS = (
    "place",
    "part",
    "name",
    "maker",
    "kind",
    "count",
    "spares",
    "grams each",
    "basis",
    "price each",
    "currency",
    "price date",
    "sold in",
    "link",
    "price of a bag",
)


def harmless_cell(text: str) -> str:
    """Text that no spreadsheet takes for a formula (a leading apostrophe makes it text)."""
    return "'" + text if text.startswith(_TRIGGERS) else text


def csv_file(headings: Iterable[str], rows: Iterable[Iterable[str]]) -> bytes:
    """A table with CRLF line ends as RFC 4180 has it, and a mark for spreadsheets; no cell is a
    formula.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(headings)
    writer.writerows([harmless_cell(cell) for cell in row] for row in rows)
    return ("\ufeff" + out.getvalue()).encode()


def amount_cells(amount: Money | None) -> tuple[str, str]:
    """An amount and its currency; empty where there is none."""
    if amount is None:
        return "", ""
    return f"{Decimal(amount.minor).scaleb(-amount.digits):f}", amount.currency


# key, shelf, part, pieces, spares, price
_CsvRow = tuple[str, str, Part, int, int, Price | None]


def _offer(price: Price | None) -> tuple[str, str, str]:
    """When a price was seen, for how many pieces, and where."""
    if price is None:
        return "", "", ""
    seen = price.seen.isoformat() if price.seen else ""
    return seen, str(price.sold_in), price.link or ""


def parts_csv(sheet: SheetInput) -> bytes:
    """One line a part, packs last."""
    return csv_file(_HEADINGS, _part_rows(sheet))


def _part_rows(sheet: SheetInput) -> Iterator[tuple[str, ...]]:
    rows: list[_CsvRow] = []
    for f in sheet.build.parts.values():
        price = f.use.price or f.part.price
        rows.append((f.key, f.shelf, f.part, f.count, f.use.spares, price))
    for p in sheet.build.packs.values():
        pieces = p.pieces
        rows.append((f"battery {p.key}", p.shelf, p.part, pieces, 0, p.part.price))
    for key, shelf, part, count, spares, price in rows:
        best = part.mass.best() if part.mass is not None else None
        grams = rounded(1000 * best[1].value, 2) if best else ""
        basis = best[0] if best else ""
        each, currency = amount_cells(price.each if price else None)
        seen, sold_in, link = _offer(price)
        bag, of_bag = amount_cells(price.pack if price else None)
        what = key, shelf, part.name, part.maker or "", part.kind
        many = str(count), str(spares)
        paid = each, currency or of_bag, seen, sold_in, link, bag
        yield (*what, *many, grams, basis, *paid)


def _notices(sections: tuple[object, ...]) -> list[Notice]:
    out: list[Notice] = []
    for item in sections:
        if isinstance(item, Notice) and item.signal is not None:
            out.append(item)
        elif isinstance(item, Section):
            out += _notices(item.blocks)
        elif isinstance(item, Steps):
            out += [n for s in item.items if isinstance(s, Step) for n in s.cautions]
    return out


def description_txt(sheet: SheetInput, pages: tuple[Page, ...], site: SitePages) -> bytes:
    """Plain text to paste under a recording: parts with links, chapters, cautions."""
    build = sheet.build
    lines = [build.title, build.source.summary, ""]
    if site.address:
        lines += [f"Sheet: {site.address}/{build.name}/", ""]
    lines.append("Parts")
    for f in build.parts.values():
        price = f.use.price or f.part.price
        link = f" {price.link}" if price is not None and price.link else ""
        lines.append(f"{f.count} x {f.part.name}{link}")
    for p in build.packs.values():
        link = f" {p.part.price.link}" if p.part.price is not None and p.part.price.link else ""
        lines.append(f"Battery {p.key}: {p.part.name}{link}")
    budget = sheet.results.budget
    cost = money(budget.this_build, at_least=bool(budget.lacks))
    lines += ["", f"Parts of this build: {cost} (prices with their dates stand on the sheet)"]
    if build.source.chapters:
        lines += ["", "Chapters", *(f"{c.at} {c.text}" for c in build.source.chapters)]
    cautions = _notices(tuple(s for page in pages for s in page.sections))
    if cautions:
        lines += ["", "Heed", *dict.fromkeys(f"{n.signal}: {n.title}" for n in cautions)]
    lines += ["", "Local rules and licensed practice come first."]
    if site.disclosure:
        lines.append(site.disclosure)
    return ("\n".join(lines) + "\n").encode()
