"""Where values were read: file, keys, basis and note, and what several of them say alike."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.compute.figures.figure import Figure
from builder.pages.derivations.derivation import BASIS_WORDS, origin
from builder.pages.told_words import note_words

_LIKE = 2  # rows that say the same before it is said above them
_SHORT = 20  # letters of a note that its row says itself
_DEEP, _WITHIN = 4, 2  # keys of a path so long that all but the last of them head a group


@dataclass(frozen=True, slots=True)
class ReadPlace:
    """Where a value was read: what its heading says, its basis, the keys within, and a note."""

    group: str
    basis: str
    keys: str
    note: str


def read_place(figure: Figure) -> ReadPlace:
    """Where a figure was read, in the words of its file."""
    basis = BASIS_WORDS[figure.basis]
    if figure.where is None:
        said = origin(figure)
        return ReadPlace(basis.capitalize(), "", "" if said == basis else said, "")
    file, *path = figure.where.cite().split(", ")
    deep = max(1, len(path) - _WITHIN) if len(path) > _DEEP else 1
    keys = ", ".join(path[deep:])
    by_key = figure.key.split("/", 2)[-1].replace("/", ", ")
    is_said = keys in (by_key, f"{by_key}, {figure.basis}")
    note = note_words(figure) if figure.own else ""
    return ReadPlace(", ".join((file, *path[:deep])), basis, "" if is_said else keys, note)


@dataclass(frozen=True, slots=True)
class CommonWords:
    """What rows leave to what stands above them: of what is from no file the words that several have,
    of a part the basis of most of its values, and by number the notes of several.
    """

    words: frozenset[tuple[str, str]]
    basis: Mapping[str, str]
    notes: Mapping[str, int]

    def heading(self, place: ReadPlace) -> str:
        """The heading of a row."""
        if (place.group, place.keys) in self.words:
            return f"{place.group}: {place.keys}"
        basis = self.basis.get(place.group, "")
        return f"{place.group}: {basis}" if basis else place.group

    def note(self, place: ReadPlace) -> str:
        """The note of a row, by its number where several have it."""
        number = self.notes.get(place.note)
        return f"note {number}" if number else place.note

    def rest(self, place: ReadPlace) -> str:
        """What a row says besides its heading."""
        basis = "" if place.basis == self.basis.get(place.group, "") else place.basis
        keys = "" if (place.group, place.keys) in self.words else place.keys
        return "; ".join(words for words in (basis, keys, self.note(place)) if words)


def common_words(places: Sequence[ReadPlace]) -> CommonWords:
    """What several of the places say."""
    from_none = Counter((p.group, p.keys) for p in places if not p.basis and p.keys)
    words = frozenset(pair for pair, count in from_none.items() if count >= _LIKE)
    bases: dict[str, Counter[str]] = {}
    for place in places:
        if place.basis:
            bases.setdefault(place.group, Counter())[place.basis] += 1
    most = {group: min(found, key=lambda b: (-found[b], b)) for group, found in bases.items()}
    often = Counter(p.note for p in places if p.note)
    notes = sorted(n for n, count in often.items() if count >= _LIKE and len(n) > _SHORT)
    return CommonWords(words, most, {note: at for at, note in enumerate(notes, 1)})
