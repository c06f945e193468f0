"""The names that a build gives: to its parts, packs, steps, questions and pictures; each sound,
none like another.
"""

from collections.abc import Iterable, Iterator

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import Origins, Where
from builder.model.source.build_source import BuildSource
from builder.model.values.names import PACK, PART, QUESTION, STEP, Naming, folded_name, name_mistake

GivenName = tuple[str, Where]


def twin(name: str, other: str, where: Where) -> Finding:
    """The mistake of a name that differs from another one by case or by form of Unicode only."""
    problem = f"{name!r} and {other!r} differ only in capitals or in the form of letters."
    return mistake(
        "data/twice",
        problem,
        "Rename one of the two: some disks and readers take them for one.",
        where,
    )


def _each(names: Iterable[GivenName], naming: Naming) -> Iterator[Finding]:
    """Names that cannot be used, that are given twice, or that are like another."""
    seen: dict[str, str] = {}
    for name, where in names:
        wrong = name_mistake(name, naming)
        if wrong is not None:
            yield mistake("data/bad-name", *wrong, where)
            continue
        other = seen.setdefault(folded_name(name), name)
        if other != name:
            yield twin(name, other, where)


def _once(names: Iterable[GivenName], what: str) -> Iterator[Finding]:
    """Names of a list's items that are given twice: the second would take the place of the first."""
    seen: set[str] = set()
    for name, where in names:
        if name in seen:
            yield mistake(
                "data/twice", f"There are two {what} {name!r}.", "Rename one of the two.", where
            )
        seen.add(name)


def _pictures(names: Iterable[GivenName]) -> Iterator[Finding]:
    """Pictures that would have one address: all of a build lie in one folder, an inherited one too."""
    seen: dict[str, GivenName] = {}
    for name, where in names:
        first, there = seen.setdefault(folded_name(name), (name, where))
        if first != name:
            yield twin(name, first, where)
        elif there.file != where.file:
            folders = f"{there.file.split('/')[0]} and {where.file.split('/')[0]}"
            problem = (
                f"The picture {name!r} is taken from two folders, {folders}, and can have one"
                " address only."
            )
            yield mistake(
                "data/twice", problem, "Rename one of the two files, and its name here.", where
            )


def check_names(source: BuildSource, origins: Origins) -> tuple[Finding, ...]:
    """Every mistake in the names that a build gives."""

    def keys(group: str, names: Iterable[str]) -> list[GivenName]:
        return [(name, origins.where((group, name), key=True)) for name in names]

    steps = [(step.id, origins.where(("steps", i, "id"))) for i, step in enumerate(source.steps)]
    asked = [
        (q.id, origins.where(("questions", i, "id")))
        for i, q in enumerate(source.questions)
        if q.id
    ]
    pictures = (
        [(source.hero.file, origins.where(("hero", "file")))] if source.hero is not None else []
    )
    pictures += [
        (photo.file, origins.where(("photos", i, "file"))) for i, photo in enumerate(source.photos)
    ]
    pictures += [
        (s.photo, origins.where(("steps", i, "photo")))
        for i, s in enumerate(source.steps)
        if s.photo
    ]
    return (
        *_each(keys("parts", source.parts), PART),
        *_each(keys("packs", source.packs), PACK),
        *_each(steps, STEP),
        *_once(steps, "steps"),
        *_each(asked, QUESTION),
        *_once(asked, "questions"),
        *_pictures(pictures),
    )
