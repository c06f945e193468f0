"""What was read and not computed, as rows by file and part: what it is, its value, and its keys."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.compute.figures.figure import Figure
from builder.model.build import Build
from builder.pages.blocks import Cell, Column, Paragraph, Row, Span, Table
from builder.pages.derivations.derivation import BASIS_WORDS, origin
from builder.pages.derivations.opened import Opened
from builder.pages.derivations.topics import named_for
from builder.pages.told_words import note_words

_COLUMNS = (Column("What"), Column("Value", align="right"), Column("Read from"))

_LIKE = 2  # rows that say the same before it is said above them
_SHORT = 20  # letters of a note that its row says itself
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


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a value was read: what its heading says, its basis, the keys within, and a note."""

    group: str
    basis: str
    keys: str
    note: str


def _place(figure: Figure) -> _Place:
    basis = BASIS_WORDS[figure.basis]
    if figure.where is None:
        said = origin(figure)
        return _Place(basis.capitalize(), "", "" if said == basis else said, "")
    file, *path = figure.where.cite().split(", ")
    deep = max(1, len(path) - _WITHIN) if len(path) > _DEEP else 1
    keys = ", ".join(path[deep:])
    by_key = figure.key.split("/", 2)[-1].replace("/", ", ")
    is_said = keys in (by_key, f"{by_key}, {figure.basis}")
    note = note_words(figure) if figure.own else ""
    return _Place(", ".join((file, *path[:deep])), basis, "" if is_said else keys, note)


@dataclass(frozen=True, slots=True)
class _Common:
    """What rows leave to what stands above them: of what is from no file the words that several have,
    of a part the basis of most of its values, and by number the notes of several.
    """

    words: frozenset[tuple[str, str]]
    basis: Mapping[str, str]
    notes: Mapping[str, int]

    def heading(self, place: _Place) -> str:
        """The heading of a row."""
        if (place.group, place.keys) in self.words:
            return f"{place.group}: {place.keys}"
        basis = self.basis.get(place.group, "")
        return f"{place.group}: {basis}" if basis else place.group

    def rest(self, place: _Place) -> str:
        """What a row says besides its heading."""
        basis = "" if place.basis == self.basis.get(place.group, "") else place.basis
        keys = "" if (place.group, place.keys) in self.words else place.keys
        number = self.notes.get(place.note)
        note = f"note {number}" if number else place.note
        return "; ".join(words for words in (basis, keys, note) if words)


def _common(places: Sequence[_Place]) -> _Common:
    from_none = Counter((p.group, p.keys) for p in places if not p.basis and p.keys)
    words = frozenset(pair for pair, count in from_none.items() if count >= _LIKE)
    bases: dict[str, Counter[str]] = {}
    for place in places:
        if place.basis:
            bases.setdefault(place.group, Counter())[place.basis] += 1
    most = {group: min(found, key=lambda b: (-found[b], b)) for group, found in bases.items()}
    often = Counter(p.note for p in places if p.note)
    notes = sorted(n for n, count in often.items() if count >= _LIKE and len(n) > _SHORT)
    return _Common(words, most, {note: at for at, note in enumerate(notes, 1)})


def _sentences(note: str) -> str:
    """A note in sentences of its own, where its parts stand behind semicolons."""
    first, *more = note.removesuffix(".").split("; ")
    return ". ".join((first, *(part[:1].upper() + part[1:] for part in more))) + "."


def leaf_blocks(
    figures: Sequence[Figure], names: Mapping[str, str], opened: Opened
) -> tuple[Paragraph, Table]:
    """What was read, file by file and part by part, below what holds for all of it."""
    places = {f.key: _place(f) for f in figures}
    common = _common(tuple(places.values()))
    lines: dict[str, list[Row]] = {}
    for figure in sorted(figures, key=lambda f: common.heading(places[f.key])):
        place = places[figure.key]
        what = Cell(
            (Span(_label_below(figure, names, opened.build)),),
            anchor=opened.short.get(figure.key, ""),
        )
        cells = (what, _text(opened.value(figure)), _text(common.rest(place)))
        lines.setdefault(common.heading(place), []).append(Row(cells, anchor=figure.anchor))
    rows = [r for h, below in lines.items() for r in (Row((_text(h),), kind="group"), *below)]
    said = [
        "Every spread is one standard deviation.",
        "A value has the basis that its heading names, unless its row names another.",
        *(f"Note {number}: {_sentences(note)}" for note, number in common.notes.items()),
    ]
    return Paragraph((Span(" ".join(said)),), quiet=True), Table(
        "", _COLUMNS, tuple(rows), stack=True
    )
