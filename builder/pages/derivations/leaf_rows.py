"""What was read and not computed, as rows by file and part: what it is, its value, and its keys."""

from collections import Counter
from collections.abc import Mapping, Sequence

from builder.compute.figures.figure import Figure
from builder.model.build import Build
from builder.pages.blocks import Cell, Column, Row, Span, Table
from builder.pages.derivations.derivation import BASIS_WORDS, origin
from builder.pages.derivations.opened import Opened
from builder.pages.derivations.topics import named_for

_COLUMNS = (Column("What"), Column("Value", align="right"), Column("Read from"))

_LIKE = 2  # rows of one origin before their heading says it
_DEEP, _WITHIN = 4, 2  # keys of a path so long that all but the last of them head a group


def _text(text: str) -> Cell:
    return Cell((Span(text),))


def _label_below(figure: Figure, names: Mapping[str, str], build: str) -> str:
    """What was read, without the name of the part that its group is of, with its battery."""
    steps = figure.key.split("/")
    name = names.get(steps[1], "") if figure.where is not None and steps[0] == "shelf" else ""
    if not name:
        return named_for(build, figure)
    return figure.label.replace(f" of one {name}", "").replace(f" of {name}", "") or figure.label


def names_of_shelf(build: Build) -> dict[str, str]:
    """The names of the parts that a build uses, by their names on the shelf."""
    parts = {f.shelf: f.part.name for f in build.parts.values()}
    return parts | {p.shelf: p.part.name for p in build.packs.values()}


def leaf_table(figures: Sequence[Figure], names: Mapping[str, str], opened: Opened) -> Table:
    """What was read, file by file and part by part."""
    rows: list[Row] = []
    said = ""
    often = Counter(_place(f) for f in figures if f.where is None)
    for figure in sorted(figures, key=lambda f: _group_and_rest(f, often)[0]):
        group, rest = _group_and_rest(figure, often)
        if group != said:
            rows.append(Row((_text(group),), kind="group"))
            said = group
        what = Cell(
            (Span(_label_below(figure, names, opened.build)),),
            anchor=opened.short.get(figure.key, ""),
        )
        cells = (what, _text(opened.value(figure)), _text(rest))
        rows.append(Row(cells, anchor=figure.anchor))
    note = "Every spread is one standard deviation."
    return Table("", _COLUMNS, tuple(rows), note=note, stack=True)


def _group_and_rest(figure: Figure, often: Mapping[tuple[str, str], int]) -> tuple[str, str]:
    """The heading of a row, and what it says besides; what several rows say of where they come from
    is said by their heading.
    """
    group, rest = _place(figure)
    if rest and often.get((group, rest), 0) >= _LIKE:
        return f"{group}: {rest}", ""
    return group, rest


def _place(figure: Figure) -> tuple[str, str]:
    """The basis, file and part that a value was read from, and the keys within it."""
    said, basis = origin(figure), BASIS_WORDS[figure.basis]
    if figure.where is None:
        return basis.capitalize(), "" if said == basis else said
    file, *path = said.split(", ")
    deep = max(1, len(path) - _WITHIN) if len(path) > _DEEP else 1
    keys = ", ".join(path[deep:])
    said_by_key = figure.key.split("/", 2)[-1].replace("/", ", ")
    group = f"{', '.join((file, *path[:deep]))}: {basis}"
    return group, "" if keys == said_by_key else keys
