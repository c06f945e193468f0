"""Values that were read, in groups: those of one place in a file, and of these the ones whose names
share words, which their heading says once.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.compute.figures.figure import Figure
from builder.model.build import Build
from builder.pages.derivations.leaf_places import CommonWords, ReadPlace, common_words, read_place
from builder.pages.derivations.topics import named_for, shared_words

_SHARE = 3  # rows whose names share words before these are said above them


def names_of_shelf(build: Build) -> dict[str, str]:
    """The names of the parts that a build uses, by their names on the shelf."""
    parts = {f.shelf: f.part.name for f in build.parts.values()}
    return parts | {p.shelf: p.part.name for p in build.packs.values()}


@dataclass(frozen=True, slots=True)
class LeafGroup:
    """Values below one heading, with their names and what their rows say besides. `title` are the
    words that their names share, '' for those that share none.
    """

    heading: str
    title: str
    figures: tuple[Figure, ...]
    names: tuple[str, ...]
    rests: tuple[str, ...]

    @property
    def key(self) -> str:
        """What tells it from all else on the page."""
        return f"/read/{self.heading}"


@dataclass(frozen=True, slots=True)
class _Line:
    figure: Figure
    name: str
    rest: str


@dataclass(frozen=True, slots=True)
class _Names:
    """The names of the parts of the shelf, and the build whose page it is."""

    parts: Mapping[str, str]
    build: str

    def of(self, figure: Figure) -> str:
        """What was read, without the name of the part that its group is of, with its battery."""
        steps, label = figure.key.split("/"), figure.label
        part = ""
        if figure.where is not None and steps[0] == "shelf":
            part = self.parts.get(steps[1], "")
        if not part:
            return named_for(self.build, figure)
        return label.replace(f" of one {part}", "").replace(f" of {part}", "") or label


def _alike(lines: Sequence[_Line]) -> list[list[_Line]]:
    """Lines whose names begin and end with the same word; of the rest those that begin so."""
    ends: dict[tuple[str, str], list[_Line]] = {}
    for line in lines:
        words = line.name.split(" ")
        ends.setdefault((words[0], words[-1]), []).append(line)
    first: dict[str, list[_Line]] = {}
    for (word, _), found in ends.items():
        if len(found) < _SHARE:
            first.setdefault(word, []).extend(found)
    many = [found for found in ends.values() if len(found) >= _SHARE]
    return [*many, *first.values()]


def _by_key(rests: Sequence[str]) -> tuple[str, tuple[str, ...]]:
    """`frame, at`, `esc, at`: the field that all are of, and the name of each in its file; '' where
    they are not so.
    """
    if len(rests) < _SHARE or any(rest.count(", ") != 1 or ";" in rest for rest in rests):
        return "", ()
    keys, fields = zip(*(rest.split(", ") for rest in rests), strict=True)
    one_field = len(set(fields)) == 1 and len(set(keys)) == len(keys)
    return (fields[0], keys) if one_field else ("", ())


def _titled(heading: str, title: str, lines: Sequence[_Line], names: Sequence[str]) -> LeafGroup:
    """A group whose heading says what all of its rows say."""
    figures = tuple(line.figure for line in lines)
    rests = tuple(line.rest for line in lines)
    field, keys = _by_key(rests)
    if field:
        return LeafGroup(f"{title}: {heading}, {field}", title, figures, keys, ("",) * len(keys))
    common = rests[0] if len(set(rests)) == 1 else ""
    above = "; ".join(words for words in (heading, common) if words)
    said = ("",) * len(rests) if common else rests
    return LeafGroup(f"{title}: {above}", title, figures, tuple(names), said)


def _shared(lines: Sequence[_Line]) -> tuple[str, tuple[str, ...]]:
    """What the names share, and the rest of each; the steps of their keys where all are one name."""
    names = tuple(line.name for line in lines)
    if len(set(names)) > 1:
        return shared_words(names)
    return names[0], tuple(", ".join(line.figure.key.split("/")[1:-1]) for line in lines)


def _groups(heading: str, lines: Sequence[_Line]) -> list[LeafGroup]:
    """First the values below one heading whose names share nothing, then the others."""
    titled: list[LeafGroup] = []
    loose = list(lines)
    for found in _alike(lines):
        title, names = _shared(found)
        if title and len(found) >= _SHARE:
            titled.append(_titled(heading, title, found, names))
            loose = [line for line in loose if line not in found]
    if not loose:
        return titled
    names = tuple(line.name for line in loose)
    rests = tuple(line.rest for line in loose)
    return [LeafGroup(heading, "", tuple(line.figure for line in loose), names, rests), *titled]


@dataclass(frozen=True, slots=True)
class Leaves:
    """All that was read, in groups, and the notes that several rows name by their number."""

    groups: tuple[LeafGroup, ...]
    notes: Mapping[str, int]


def _of_file(
    figures: Sequence[Figure], places: Mapping[str, ReadPlace], common: CommonWords, names: _Names
) -> list[LeafGroup]:
    """What at least three parts of one file of the shelf have alike, as their weights: each with the
    name of its part in that file.
    """
    found: dict[tuple[str, str], list[_Line]] = {}
    for figure in figures:
        place = places[figure.key]
        file, _, part = place.group.partition(", ")
        if figure.key.split("/")[:2] == ["shelf", part] and not place.keys:
            note = common.note(place)
            heading = "; ".join(w for w in (file, place.basis, note) if w)
            line = _Line(figure, part, "")
            found.setdefault((heading, names.of(figure)), []).append(line)
    return [
        _titled(heading, title, lines, [line.name for line in lines])
        for (heading, title), lines in sorted(found.items(), key=lambda f: f[0])
        if len(lines) >= _SHARE
    ]


def leaves_of(figures: Sequence[Figure], parts: Mapping[str, str], build: str) -> Leaves:
    """Values that were read, file by file and part by part; `parts` are the names of the shelf."""
    places = {f.key: read_place(f) for f in figures}
    common, names = common_words(tuple(places.values())), _Names(parts, build)
    by_file = _of_file(figures, places, common, names)
    taken = {f.key for g in by_file for f in g.figures}
    rest = [f for f in figures if f.key not in taken]
    lines: dict[str, list[_Line]] = {}
    for figure in sorted(rest, key=lambda f: common.heading(places[f.key])):
        place = places[figure.key]
        line = _Line(figure, names.of(figure), common.rest(place))
        lines.setdefault(common.heading(place), []).append(line)
    groups = [g for heading, below in lines.items() for g in _groups(heading, below)]
    return Leaves((*groups, *by_file), common.notes)
