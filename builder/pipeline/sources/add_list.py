"""A list of parts onto one's own shelf, all or nothing: what each row would become, and what of it
is not understood.
"""

import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from builder.diagnostics.finding import Collector
from builder.diagnostics.where import Where
from builder.load.files import Loaded
from builder.load.one_file import NotRead, read_one
from builder.model.read.shelf import read_part
from builder.model.values.names import BUILD, SHELF, folded_name, name_mistake
from builder.pipeline.begin.start_from import own_parts
from builder.pipeline.sources.first_build import first_build, first_settings
from builder.pipeline.sources.list_columns import (
    ListColumn,
    ListColumns,
    kind_in_cell,
    kinds_in,
    list_columns,
)
from builder.pipeline.sources.list_rows import ListRow, NoList, PartList, RowPart, list_of
from builder.pipeline.sources.shelf_entries import (
    Added,
    NotAdded,
    add_entries,
    entry_text,
    must_be_file,
)

_BARE = re.compile(r"\d[\d.,' ]*")
_COUNT = re.compile(r"(?:x\s*)?([0-9]{1,4})\s*(?:x|pcs\.?|pieces?)?", re.IGNORECASE)
_FORMULA = re.compile(r"=|[@+-]\w+[(|!]")  # what spreadsheets take for the start of one
_LONGEST_NAME = 60  # letters of the address of a part
_PRICE_FIELDS = ("seen", "shop", "link")


@dataclass(frozen=True)
class ListOptions:
    """What is said of a list besides: which column a field is, its currency, the unit of weights
    without one, and the sign of its decimals ('comma', 'point', '' for each as it reads).
    """

    columns: Mapping[str, str] = field(default_factory=dict)
    currency: str = ""
    unit: str = ""
    decimals: str = ""


@dataclass(frozen=True)
class NotUnderstood:
    """What a cell says that is not understood, and how it would be."""

    row: int
    heading: str
    why: str


@dataclass(frozen=True)
class ListPlan:
    """What a list would write, what of it is not understood, and columns that were passed over."""

    parts: tuple[RowPart, ...]
    wrong: tuple[NotUnderstood, ...]
    unread: tuple[str, ...]


def plan_list(content: bytes, there: Loaded, options: ListOptions) -> ListPlan:
    """What a list would become beside what is on the shelf. NotAdded where it is no list of parts."""
    try:
        given = list_of(content)
        columns = list_columns(given.headings, options.columns)
    except (NoList, ValueError) as error:
        said = str(error).rstrip(".")
        raise NotAdded(f"{said[:1].upper()}{said[1:]}.") from error
    if all(column.field != "name" for column in columns.known):
        hint = "Say which it is: --column name=HEADING. Nothing was written."
        raise NotAdded("No column of the list is known to be the name of a part.", hint)
    return _Reading(given, columns, options, there).plan()


@dataclass(eq=False)
class _Reading:
    """One list while it is read; local to a call."""

    given: PartList
    columns: ListColumns
    options: ListOptions
    there: Loaded
    parts: list[RowPart] = field(default_factory=list)
    wrong: list[NotUnderstood] = field(default_factory=list)
    rows: dict[str, int] = field(default_factory=dict)

    def plan(self) -> ListPlan:
        for row in self.given.rows:
            before = len(self.wrong)
            part = self.part(row)
            if len(self.wrong) == before and part is not None:
                self.parts.append(part)
        unread = dict.fromkeys((*self.columns.unknown, *self.columns.sums))
        return ListPlan(tuple(self.parts), tuple(self.wrong), tuple(unread))

    def say(self, row: ListRow, field_name: str, why: str) -> None:
        column = self.column(field_name)
        heading = column.heading if column is not None else field_name
        self.wrong.append(NotUnderstood(row.number, heading, why))

    def column(self, field_name: str) -> ListColumn | None:
        return next((c for c in self.columns.known if c.field == field_name), None)

    def cell(self, row: ListRow, field_name: str) -> str:
        column = self.column(field_name)
        return row.cells[column.at] if column is not None else ""

    def part(self, row: ListRow) -> RowPart | None:
        """What a row becomes; what is wrong with it is noted."""
        named = self.cell(row, "name")
        if not named:
            self.say(row, "name", "no name")
            return None
        self.no_formulas(row)
        name = self.name(row, named)
        tree: dict[str, Any] = {"kind": self.kind(row, named), "name": named}
        tree |= {key: said for key in ("maker", "note") if (said := self.cell(row, key))}
        mass = self.number(row, "mass", self.options.unit)
        tree |= {"mass": mass} if mass else {}
        price = self.price(row)
        tree |= {"price": price} if price else {}
        count = self.count(row)
        self.look_at(row, name, tree)
        return RowPart(row.number, name, tree, count)

    def name(self, row: ListRow, named: str) -> str:
        name = shelf_name(named)
        folded = folded_name(name)
        held = own_parts(self.there).get(folded)
        if name_mistake(name, SHELF) is not None:
            self.say(row, "name", f"{named[:60]!r} makes no name for the shelf")
        elif held is not None:
            self.say(row, "name", f"{name!r} stands in builds/{held[0]} already")
        elif folded in self.rows:
            self.say(row, "name", f"row {self.rows[folded]} has that name too")
        self.rows.setdefault(folded, row.number)
        return name

    def kind(self, row: ListRow, named: str) -> str:
        said = self.cell(row, "kind")
        if said:
            kind = kind_in_cell(said)
            if not kind:
                self.say(row, "kind", f"{said[:40]!r} is not a kind of part")
            return kind or "other"
        found = kinds_in(named)
        if len(found) != 1:
            which = " or ".join(found)
            why = f"its name says {which}" if found else "its name does not say the kind"
            self.say(row, "kind", f"{why}; add a column 'kind'")
            return "other"
        return found[0]

    def number(self, row: ListRow, field_name: str, unit: str) -> str:
        """A cell with the unit of its heading, or the one that was said, where it has none."""
        text = self._decimals(self.cell(row, field_name))
        column = self.column(field_name)
        if not text or column is None:
            return ""
        return f"{text} {column.unit or unit}".strip() if _BARE.fullmatch(text) else text

    def _decimals(self, text: str) -> str:
        """Numbers with a decimal point, where it is said which sign parts them."""
        if self.options.decimals == "comma":
            return text.replace(".", "").replace(",", ".")
        return text.replace(",", "") if self.options.decimals == "point" else text

    def price(self, row: ListRow) -> dict[str, str]:
        code = self.cell(row, "currency") or self.options.currency
        each = self.number(row, "price", code)
        said = {"each": each} if each else {}
        return said | {key: text for key in _PRICE_FIELDS if (text := self.cell(row, key))}

    def count(self, row: ListRow) -> int:
        text = self.cell(row, "count")
        match = _COUNT.fullmatch(text) if text else None
        none = match is not None and int(match[1]) == 0
        if text and (match is None or none):
            self.say(row, "count", f"{text[:40]!r} is no number of pieces")
        return int(match[1]) if match is not None else 1

    def no_formulas(self, row: ListRow) -> None:
        """Notes cells of which a spreadsheet would show something else than they hold."""
        for column in self.columns.known:
            if _FORMULA.match(row.cells[column.at]):
                self.say(row, column.field, "a formula; save the list with what its cells show")

    def look_at(self, row: ListRow, name: str, tree: dict[str, Any]) -> None:
        """Notes what the reader of the shelf says of the entry."""
        found = Collector()
        settings = self.there.documents.get("site.yaml")
        own = settings.tree if settings is not None else None
        currency = own.get("currency", "") if isinstance(own, dict) else ""
        read_part(name, tree, Where("list", (name,)), found, str(currency))
        for finding in found.findings:
            path = finding.where.path if finding.where is not None else ()
            steps = [str(step) for step in path[1:]]
            key = steps[-1] if steps[:1] == ["price"] and steps[-1] in _PRICE_FIELDS else ""
            self.say(
                row, key or (steps[0] if steps else "name"), _one(finding.message, finding.hint)
            )


def add_listed(workspace: Path, there: Loaded, plan: ListPlan, file: str, build: str = "") -> Added:
    """Writes the parts of a plan, all or none, and a first build of them where it is named."""
    must_be_file(file)
    besides: dict[str, str] = {}
    if build:
        wrong = name_mistake(build, BUILD)
        if wrong is not None:
            raise NotAdded(*wrong)
        if build in there.names:
            raise NotAdded(f"The build {build!r} is there already.", "Nothing was written.")
        besides = (
            {} if "site.yaml" in there.documents else {"site.yaml": first_settings(plan.parts)}
        )
        besides[f"{build}/build.yaml"] = first_build(build, plan.parts)
    entries = {part.name: entry_text(part.name, part.tree) for part in plan.parts}
    return add_entries(workspace, there, entries, file, besides)


def _one(message: str, hint: str) -> str:
    return f"{message.rstrip('.')}. {hint.rstrip('.')}"


def shelf_name(named: str) -> str:
    """`Sluice 1404, 3800 kv` as `sluice-1404-3800-kv`."""
    plain = unicodedata.normalize("NFKD", named).encode("ascii", "ignore").decode()
    words = re.findall(r"[a-z0-9]+", plain.casefold())
    name = ""
    for word in words:
        if len(name) + len(word) >= _LONGEST_NAME:
            break
        name = f"{name}-{word}" if name else word
    return name


def read_list(place: str) -> bytes:
    """The bytes of a list that lies at a path. NotAdded where they cannot be read."""
    path = Path(place)
    try:
        return read_one(path.parent, path.name, 1024)
    except NotRead as error:
        raise NotAdded(f"{place[:200]!r} cannot be read: {error.problem}") from error
