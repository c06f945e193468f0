"""The list of parts: each with the builds that use it and what was found there first, then its kind and
the one figure by which parts of that kind are told apart.
"""

from collections.abc import Mapping, Sequence
from math import fsum

from builder.frozen import value_class
from builder.model.source.part import Part
from builder.model.values.measures import Cells
from builder.model.values.quantities import Quantity
from builder.pages.blocks import Cell, Inline, Page, Paragraph, Row, Section, Span, Table
from builder.pages.rows import right_column, table_columns
from builder.pages.site.part_history import Swapping, flights_words
from builder.pages.summaries.summary import Summary
from builder.pages.tables.value_words import in_written_unit, key_in_words, value_words
from builder.rounding import rounded
from builder.rules.public_fields import is_public

# The field by which a person tells parts of a kind apart (common practice, no source).
_TOLD_BY = (
    ("motor", "kv"),
    ("propeller", "diameter"),
    ("pack", "capacity"),
    ("frame", "wheelbase"),
    ("speed-controller", "continuous"),
    ("combined-board", "continuous"),
    ("capacitor", "capacitance"),
    ("connector", "continuous"),
    ("antenna", "length"),
    ("hardware", "length"),
    ("ground-gear", "charge_current"),
)
_BENCH = ("consumable", "ground-gear", "tool")
_FOUND = 2  # the column of what was found
_NOTHING = "nothing noted"
_GRAMS, _WIDE = 1000.0, 14  # digits before the point by which figures are sorted as words
_LEAST = 1e6  # the smallest step that is sorted by


@value_class(frozen=True, slots=True)
class PartLine:
    """What the list shows of a part of the shelf itself. `told_by` names the figure, `size` is it."""

    shelf: str
    name: str
    kind: str
    told_by: str
    figure: str
    size: Quantity | None
    mass: Quantity | None = None


def _told_by(part: Part) -> tuple[str, object]:
    """The figure of its kind, else its weight."""
    kind = type(part)
    for name, field in _TOLD_BY:
        value = getattr(part, field, None) if name == part.kind else None
        if value is not None and is_public(kind, field):
            return key_in_words(field), value
    mass = part.mass.best() if part.mass is not None else None
    return ("weight", mass[1]) if mass is not None else ("", None)


def listed_part(shelf: str, part: Part) -> PartLine:
    """The line of one part."""
    told_by, value = _told_by(part)
    kind = "battery" if part.kind == "pack" else part.kind
    cells = getattr(part, "cells", None)
    words = value_words(value) if value is not None else ""
    if part.kind == "pack" and isinstance(cells, Cells):
        words = f"{value_words(cells)}, {words}"
    size = value if isinstance(value, Quantity) else None
    mass = part.mass.best() if part.mass is not None else None
    return PartLine(shelf, part.name, kind, told_by, words, size, mass[1] if mass else None)


def _found(
    shelf: str,
    users: Sequence[Summary],
    history: Sequence[Swapping],
    names: Mapping[str, str],
) -> str:
    """What builds learned of it: what pieces weighed, what broke, what may stand in its place."""
    said = []
    for s in users:
        readings = [r for _, name, each in s.weighed if name == shelf for r in each]
        if readings:
            mean = rounded(_GRAMS * fsum(readings) / len(readings), 2)
            many = "1 piece" if len(readings) == 1 else f"{len(readings)} pieces"
            said.append(f"{s.title}: {many} weighed, {mean} g each")
    said += [f"{h.title}: replaced, {h.how}" for h in history if not h.other]
    return "; ".join((*said, *_checked(history, names)))


def _checked(history: Sequence[Swapping], names: Mapping[str, str]) -> list[str]:
    """What the checks said of what may stand in its place; said once where builds agree."""
    tried: dict[str, list[str]] = {}
    for h in history:
        if h.found:
            words = f"{names.get(h.other, h.other)} in its place: {h.found}"
            tried.setdefault(words, []).append(h.title)
    out = []
    for words, titles in tried.items():
        who = titles[0] if len(titles) == 1 else f"{len(titles)} builds"
        out.append(f"{who}: {words}")
    return out


def _users(shelf: str, users: Sequence[Summary]) -> Cell:
    pieces: list[Inline] = []
    for s in users:
        count = sum(n for _, name, n in s.parts if name == shelf)
        pieces += [Span("; ")] if pieces else []
        pieces.append(Span(s.title, f"{s.name}/index.html"))
        pieces += [Span(f" ({count})")] if count > 1 else []
        flights = flights_words(shelf, s)
        pieces += [Span(f", flights: {flights}")] if flights else []
    return Cell(tuple(pieces))


def _sizes(lines: Sequence[PartLine]) -> Mapping[str, Mapping[str, str]]:
    """By part, the figure as a number to filter by, and its name with the unit in which the first
    part of its kind says it.
    """
    units: dict[tuple[str, str], str] = {}
    out = {}
    for line in lines:
        if line.size is None:
            continue
        unit = units.setdefault((line.kind, line.told_by), line.size.unit)
        number = in_written_unit(line.size.value, unit, line.size.dimension)
        out[line.shelf] = {"size": f"{number:.6g}", "unit": f"{line.told_by} in {unit}"}
    return out


def _weight(line: PartLine) -> Cell:
    """Grams of one piece; what stays on the bench needs none."""
    if line.mass is None:
        return Cell((Span("" if line.kind in _BENCH else "not known"),))
    return Cell((Span(value_words(line.mass)),), sort=line.mass.value)


def _row(
    line: PartLine,
    users: Sequence[Summary],
    history: Sequence[Swapping],
    names: Mapping[str, str],
    size: Mapping[str, str],
) -> Row:
    # Figures sort inside of their kind: a motor's rpm a volt is not more than a battery's charge.
    order = f"{_LEAST * line.size.value:0{_WIDE}.0f}" if line.size is not None else ""
    unknown = "" if line.kind in _BENCH else "not known"
    figure = Cell((Span(line.figure or unknown),), line.told_by, sort=f"{line.kind} {order}")
    found = _found(line.shelf, users, history, names)
    cells = (
        Cell((Span(line.name, f"parts/{line.shelf}/index.html"),), sort=line.name.casefold()),
        _users(line.shelf, users),
        Cell((Span(found or _NOTHING),), tone="" if found else "quiet"),
        Cell((Span(line.kind),)),
        figure,
        _weight(line),
    )
    return Row(cells, anchor=f"part-{line.shelf}", data={"kind": line.kind, **size})


def _in_order(lines: Sequence[PartLine], users: Mapping[str, Sequence[Summary]]) -> list[PartLine]:
    """What flies before what stays on the bench, what most builds use first, then by name."""
    return sorted(
        lines, key=lambda x: (x.kind in _BENCH, -len(users[x.shelf]), x.kind, x.name.casefold())
    )


def part_list_page(
    lines: Sequence[PartLine],
    users: Mapping[str, Sequence[Summary]],
    history: Mapping[str, Sequence[Swapping]],
    names: Mapping[str, str],
) -> Page:
    """The list; those that most builds use first, then by name. `names` of parts that swaps name."""
    ordered = _in_order(lines, users)
    sizes = _sizes(ordered)
    rows = [
        _row(x, users[x.shelf], history.get(x.shelf, ()), names, sizes.get(x.shelf, {}))
        for x in ordered
    ]
    rows.sort(key=lambda row: row.cells[_FOUND].tone == "quiet")
    names_of = "Part", "Used by", "Found there", "Kind", "Told by"
    heads = table_columns(*names_of, right_column("Each"))
    note = "A heading sorts; 'Told by' sorts inside of each kind."
    table = Table("Parts", heads, tuple(rows), "parts", stack=True, note=note, sortable=True)
    lead = Paragraph((Span("A part's page has all of its facts, and what was put in its place."),))
    return Page(
        "parts/index.html",
        "table",
        "Parts that builds use",
        f"{len(rows)} parts, with the builds that use them and what was found there.",
        (
            Section(
                "parts-list", "Parts", (lead, table) if rows else (Paragraph((Span("None."),)),)
            ),
        ),
        breadcrumbs=(Span("All builds", "index.html"),),
    )
