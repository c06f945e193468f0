"""Reads a list of parts as text: CSV with commas or semicolons, or TSV, as spreadsheets write them."""

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

MOST_BYTES = 1024 * 1024
_MOST_ROWS = 1_000
_MOST_LETTERS = 2_000  # of a cell
_SIGNS = ("\t", ";", ",", "|")


class NoList(Exception):
    """Why a text is no list, in one sentence."""


@dataclass(frozen=True)
class ListRow:
    """A row with its number in the file, the heading being row 1."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True)
class PartList:
    """The headings and the rows below them; rows without a word are left out."""

    headings: tuple[str, ...]
    rows: tuple[ListRow, ...]


@dataclass(frozen=True)
class RowPart:
    """What a row becomes: an entry of the shelf, and how many of it there are."""

    row: int
    name: str
    tree: Mapping[str, Any]
    count: int


def list_of(content: bytes) -> PartList:
    """The list that some bytes hold. NoList says in a sentence why they hold none."""
    if len(content) > MOST_BYTES:
        raise NoList(f"The list is larger than {MOST_BYTES // 1024} kB.")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise NoList("The list is not UTF-8; save it as 'CSV UTF-8'.") from None
    if "\0" in text:
        raise NoList("The list holds characters that no text has.")
    first, _, rest = text.lstrip("\r\n").partition("\n")
    sign = first.strip()[4:5] if first.casefold().startswith("sep=") else ""
    whole = rest if sign else text.lstrip("\r\n")
    rows = _rows(whole, sign or _sign(whole))
    if len(rows) < 2:
        raise NoList("The list needs a row of headings and a row for each part.")
    headings = rows[0].cells
    return PartList(headings, tuple(_level(row, len(headings)) for row in rows[1:]))


def _sign(text: str) -> str:
    """What parts the cells of the first row: the sign that stands there most."""
    head = text.partition("\n")[0]
    return max(_SIGNS, key=lambda sign: (head.count(sign), -_SIGNS.index(sign)))


def _rows(text: str, sign: str) -> list[ListRow]:
    if sign not in _SIGNS:
        raise NoList(f"Cells cannot be parted by {sign!r}.")
    found: list[ListRow] = []
    try:
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign, strict=True)
        for number, cells in enumerate(reader, start=1):
            plain = tuple(" ".join(cell.split()) for cell in cells)
            if any(plain):
                found.append(ListRow(number, plain))
            if len(found) > _MOST_ROWS + 1:
                raise NoList(f"The list has over {_MOST_ROWS} rows; split it.")
    except csv.Error as error:
        raise NoList(f"The list cannot be read as a table: {error}.") from None
    long = next((r for r in found if any(len(c) > _MOST_LETTERS for c in r.cells)), None)
    if long is not None:
        raise NoList(f"Row {long.number} has a cell of over {_MOST_LETTERS} letters.")
    return found


def _level(row: ListRow, width: int) -> ListRow:
    """A row as wide as the headings. NoList for one that says more: a comma is then in a number."""
    if any(row.cells[width:]):
        said = f"Row {row.number} has more cells than there are headings"
        raise NoList(f"{said}: a comma in a cell wants quotation marks around it.")
    cells = row.cells[:width]
    return ListRow(row.number, cells + ("",) * (width - len(cells)))
