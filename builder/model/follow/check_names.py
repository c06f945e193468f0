"""The names that a build gives: to its parts, packs, steps, questions and pictures; each sound,
none like another.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Origins, Where
from builder.model.source.build_source import BuildSource
from builder.model.values.names import (
    GIVEN,
    PACK,
    PART,
    QUESTION,
    STEP,
    Naming,
    folded_name,
    name_mistake,
)

GivenName = tuple[str, Where]
Trees = Mapping[str, Mapping[str, Any]]


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
    given = [(f.name, origins.where(("files", i, "name"))) for i, f in enumerate(source.files)]
    return (
        *_each(keys("parts", source.parts), PART),
        *_each(keys("packs", source.packs), PACK),
        *_each(steps, STEP),
        *_once(steps, "steps"),
        *_each(asked, QUESTION),
        *_once(asked, "questions"),
        *_each(given, GIVEN),
        *_once(given, "files that are given along"),
        *_pictures(pictures),
    )


_SUCCESSOR = "superseded_by"


def _comes_back(name: str, trees: Trees) -> bool:
    """Whether who follows the successors of a build comes back to it."""
    seen: set[str] = set()
    at = trees[name].get(_SUCCESSOR)
    while isinstance(at, str) and at in trees and at not in seen:
        if at == name:
            return True
        seen.add(at)
        at = trees[at].get(_SUCCESSOR)
    return False


def wrong_successor(name: str, trees: Trees) -> tuple[Finding, ...]:
    """A mistake for a successor that is no build of this workspace, or that leads back."""
    said = trees[name].get(_SUCCESSOR)
    if said is None or not isinstance(said, str):
        return ()
    where = Where(f"{name}/build.yaml", (_SUCCESSOR,))
    if said not in trees:
        problem, known = f"There is no build {said!r}.", [n for n in trees if n != name]
        return (mistake("data/no-such-build", problem, did_you_mean(said, known), where),)
    if _comes_back(name, trees):
        problem = f"{name!r} and {said!r} would have taken each other's place."
        return (mistake("data/circle-of-bases", problem, "Take one of the two out.", where),)
    return ()
