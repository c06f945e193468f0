"""Holds what the chapters of a guide name against what there is, and keeps private words out of them.

These are mistakes, not rules: a number that nobody knows cannot be accepted, nor can a dead link.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from difflib import get_close_matches

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Where
from builder.frozen import value_class
from builder.model.guide.chapter import GuideChapter, Reference
from builder.rules.data._private_words import private_in

_MOST_NEAR, _DEEP = 3, 3  # keys that are offered, and their steps
_WORDS = {
    "figure": "a figure",
    "step": "a step",
    "part": "a part or battery",
    "chapter": "a chapter",
    "files": "a file under `files`",
}


@value_class(frozen=True, slots=True)
class GuideNames:
    """What chapters may name, by kind of reference: each name as it may be written, and the key, id
    or address that it stands for. `headings` are the anchors of each chapter.
    """

    by_kind: Mapping[str, Mapping[str, str]]
    headings: Mapping[str, Collection[str]]

    def meant(self, reference: Reference) -> str | None:
        """What a reference stands for; None for a name that is not known."""
        return self.by_kind[reference.kind].get(reference.name)


def _near_figure(name: str, known: Collection[str]) -> str:
    """The keys that end alike, else the most alike, three at most."""
    last = name.rpartition("/")[2]
    ends = sorted(key for key in known if key.endswith(f"/{last}") and key.count("/") < _DEEP)
    near = ends or get_close_matches(name, sorted(known), n=_MOST_NEAR, cutoff=0.6)
    if not near:
        return "List them with `benchleaf trace BUILD TOPIC`."
    return f"Did you mean {' or '.join(map(repr, near[:_MOST_NEAR]))}?"


def _unknown(build: str, reference: Reference, names: GuideNames) -> Finding:
    known = names.by_kind[reference.kind]
    said = f"{reference.name!r} is no name of {_WORDS[reference.kind]} of {build}."
    as_figure = reference.kind == "figure"
    hint = _near_figure(reference.name, known) if as_figure else did_you_mean(reference.name, known)
    return mistake("data/guide-name", said, hint, reference.where, build)


def _references(chapter: GuideChapter, names: GuideNames) -> Iterator[Finding]:
    for reference in chapter.references:
        meant = names.meant(reference)
        if meant is None:
            yield _unknown(chapter.build, reference, names)
        elif reference.kind == "chapter" and reference.rest:
            anchors = names.headings.get(reference.name, ())
            if reference.rest not in anchors:
                said = f"The chapter {reference.name!r} has no heading {reference.rest!r}."
                hint = did_you_mean(reference.rest, anchors)
                yield mistake("data/guide-name", said, hint, reference.where, chapter.build)


def private_lines(build: str, file: str, text: str) -> tuple[Finding, ...]:
    """Every line of a chapter that would give something private away."""
    found = []
    for number, line in enumerate(text.split("\n")):
        what = next((what for _, what in private_in(line)), "")
        if what:
            said = f"This line would publish {what}."
            where = Where(file, (number, len(line.strip()) or 1))
            hint = "Take it out, or write it without the value."
            found.append(mistake("data/guide-private", said, hint, where, build))
    return tuple(found)


def guide_mistakes(chapters: Iterable[GuideChapter], names: GuideNames) -> tuple[Finding, ...]:
    """Every name that is not known. A variant may lack what its base's words name: its pages say so."""
    own = [chapter for chapter in chapters if not chapter.is_inherited]
    return tuple(found for chapter in own for found in _references(chapter, names))
