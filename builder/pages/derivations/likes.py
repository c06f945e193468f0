"""Figures of one formula, and which of them are likes: one quantity of several batteries, flights,
gates or joints.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from builder.compute.figures.figure import Figure
from builder.pages.derivations.formulas_opened import Formulas
from builder.pages.derivations.topics import (
    column_words,
    likes_of,
    named_for,
    shared_words,
    subject_of,
)

_FEW = 2  # figures that are there once, of whose names nothing is said above them
_MOST = 4  # columns of likes that stand beside each other


@dataclass(frozen=True, slots=True)
class Likes:
    """Figures of one formula, in the order in which they come, and their names. `title` are the
    words that the names share. Of likes `key` is what tells them from others of the page, and
    `subjects` what each belongs to; `columns` are the subjects of all likes that stand beside them
    in one table, if few enough do.
    """

    key: str
    figures: tuple[Figure, ...]
    names: tuple[str, ...]
    title: str
    subjects: tuple[str, ...] = ()
    columns: tuple[str, ...] = ()

    @property
    def by_column(self) -> tuple[Figure | None, ...]:
        """The figure of each column, in their order."""
        found = dict(zip(self.subjects, self.figures, strict=True))
        return tuple(found.get(c) for c in self.columns)


def _of(key: str, figures: Sequence[Figure], build: str) -> Likes:
    names = tuple(named_for(build, f) for f in figures)
    subjects = tuple(subject_of(build, f) for f in figures)
    if not key and (len(names) <= _FEW or any(subjects)):
        return Likes("", tuple(figures), names, "")
    title, short = shared_words(names)
    if not key:
        return Likes("", tuple(figures), short, title)
    return Likes(key, tuple(figures), short, title, subjects)


def _by_formula(
    topic: str, figures: Sequence[Figure], build: str, formulas: Formulas
) -> Iterator[Likes]:
    found: dict[str, dict[str, list[Figure]]] = {}
    for figure in figures:
        assert figure.formula is not None
        kinds = found.setdefault(formulas.anchor(figure.formula), {})
        kinds.setdefault(likes_of(build, figure), []).append(figure)
    for formula, kinds in found.items():
        once = [f for likes in kinds.values() if len(likes) == 1 for f in likes]
        if once:
            yield _of("", once, build)
        for like, likes in kinds.items():
            if len(likes) > 1:
                yield _of(f"/{topic}/{formula}/{like}", likes, build)


def _quantity(likes: Likes) -> str:
    """What all likes of a row are, for their columns say of what."""
    labels = list(dict.fromkeys(f.label for f in likes.figures))
    return labels[0] if len(labels) == 1 else likes.title or " / ".join(labels)


def likes_of_topic(
    topic: str, figures: Sequence[Figure], build: str, formulas: Formulas
) -> tuple[Likes, ...]:
    """Figures of one formula together; of these, likes apart from what is there once."""
    found = tuple(_by_formula(topic, figures, build, formulas))
    apart = [g for g in found if g.key and len(set(g.subjects)) == len(g.figures)]
    columns = tuple(dict.fromkeys(s for g in apart for s in g.subjects))
    if not column_words(topic) or not 1 < len(columns) <= _MOST:
        return found
    return tuple(
        replace(g, title=_quantity(g), columns=columns) if g in apart else g for g in found
    )


@dataclass(frozen=True, slots=True)
class Like:
    """Where a figure stands among its likes: their key, their words, and what it belongs to. `beside`
    says that one row has all of them.
    """

    key: str
    title: str
    subject: str
    beside: bool


def like_by_key(build: str, topics: Mapping[str, Sequence[Likes]]) -> dict[str, Like]:
    """Each figure that has likes, by its own key."""
    return {
        f.key: Like(g.key, g.title, subject_of(build, f), bool(g.columns))
        for groups in topics.values()
        for g in groups
        if g.key
        for f in g.figures
    }
