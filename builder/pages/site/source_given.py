"""The source of a published build as one archive to start from: `<build>/source.zip`.

It is written anew from what was read: no comment, no file as it lies, no field that is kept back.
It holds what the numbers of the sheet rest on, and lies as a workspace: unpacked into an empty
folder it publishes the same numbers.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from textwrap import shorten
from typing import Any

from builder import __version__
from builder.load.files import Loaded
from builder.load.stored_zip import digest_of_files, stored_zip
from builder.load.yaml_written import written
from builder.model.build import Build
from builder.model.kinds import KINDS
from builder.model.read.workspace import Workspace
from builder.model.site import Site
from builder.model.source.build_source import BuildSource
from builder.rules.data._private_words import private_in
from builder.rules.public_fields import public_tree

ORIGIN = "origin.yaml"
_LONGEST = 300  # letters of the titles of a guide
_DIGEST_SAYS = "The digest shows that nothing was lost on the way, not who made it."
_NO_LICENCE = "not stated; ask the author before you publish what you make of it"
# How a JPEG, a PNG and a WebP begin (ISO/IEC 10918-1, ISO/IEC 15948, RFC 9649).
_PHOTOGRAPHS = (b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"RIFF")
# Settings of the site that no number of a sheet rests on.
_OF_THE_SITE_ONLY = ("about", "at_most", "compare", "derivations_on_paper", "disclosure")


@dataclass(frozen=True, eq=False)
class SourceGiven:
    """What the archive of one build holds: documents and pictures by their path below `builds/`,
    and the words of its origin; `chapters` and `files` that it gives along likewise, `titles` are those of its chapters.
    """

    build: str
    documents: Mapping[str, Mapping[str, Any]]
    pictures: Mapping[str, bytes]
    origin: Mapping[str, Any]
    chapters: Mapping[str, str] = field(default_factory=dict)
    files: Mapping[str, bytes] = field(default_factory=dict)
    titles: tuple[str, ...] = ()

    def archive(self) -> bytes:
        """The bytes of the archive."""
        texts = {path: written(tree).encode() for path, tree in self.documents.items()}
        texts |= {path: text.encode() for path, text in self.chapters.items()}
        listed = texts | dict(self.pictures) | dict(self.files)
        files = {f"builds/{path}": content for path, content in listed.items()}
        guide = shorten("; ".join(self.titles), _LONGEST, placeholder=" …")
        credit = {**self.origin, "guide": guide} if guide else self.origin
        said = {**credit, "digest": digest_of_files(files), "digest_says": _DIGEST_SAYS}
        return stored_zip({**files, ORIGIN: written(said).encode()})

    @property
    def gives_away(self) -> str:
        """What its texts, drawings and names would give away, in words; '' for nothing.

        A published photograph is made of pixels alone. Its bytes are no text, and in some
        megabytes of them there is always something that reads like a password.
        """
        texts = [written(tree).encode() for tree in (*self.documents.values(), self.origin)]
        drawings = [c for c in self.pictures.values() if not c.startswith(_PHOTOGRAPHS)]
        names = [path.encode() for path in (*self.documents, *self.pictures)]
        return private_in_archive(b"\n".join((*texts, *drawings, *names)))


def private_in_archive(content: bytes) -> str:
    """What the bytes of texts would give away, in words; '' for nothing."""
    lines = content.decode("utf-8", "replace").splitlines()
    return next((what for line in lines for _, what in private_in(line)), "")


def private_in_source(given: SourceGiven) -> str:
    """The same of a source. Photographs are made anew without what a camera writes into them, and
    their bytes hold any word sooner or later: only drawings are read.
    """
    drawn = {path: c for path, c in given.pictures.items() if path.casefold().endswith(".svg")}
    return private_in_archive(replace(given, pictures=drawn).archive())


def _credit(build: Build, site: Site) -> dict[str, Any]:
    """Who gives it, under which licence; what is not said is left out, but for the licence."""
    source = build.source
    said = {
        "title": source.title,
        "build": build.name,
        "author": source.author or site.author,
        "licence": source.licence or site.licence or _NO_LICENCE,
        "site": site.title,
        "address": site.address,
        "revised": str(source.revised or ""),
        "invented": "yes" if source.invented or site.invented else "",
        "written_by": f"benchleaf {__version__}",
    }
    return {key: value for key, value in said.items() if value}


def _without_lost_pictures(tree: dict[str, Any], has: Iterable[str]) -> dict[str, Any]:
    """A build's tree without pictures that were not published."""
    there = set(has)
    hero, photos, steps = tree.get("hero"), tree.get("photos"), tree.get("steps")
    out = dict(tree)
    if isinstance(hero, dict) and hero.get("file") not in there:
        del out["hero"]
    if isinstance(photos, list):
        out["photos"] = [p for p in photos if p.get("file") in there]
    if isinstance(steps, list):
        out["steps"] = [_step(step, there) for step in steps]
    return out


def _step(step: Mapping[str, Any], there: set[str]) -> dict[str, Any]:
    lost = step.get("photo") is not None and step["photo"] not in there
    return {k: v for k, v in step.items() if not (lost and k in ("photo", "alt"))}


def gives_source(name: str, model: Workspace) -> bool:
    """Whether a build and all that it is based on may be given away."""
    chain = (name, *model.builds.facts[name].bases)
    sources = [model.builds[each].source for each in chain if each in model.builds]
    return model.site.give_source and all(s.give_source for s in sources)


def chain_of(name: str, model: Workspace) -> tuple[str, ...]:
    """A build and its bases."""
    return (name, *model.builds.facts[name].bases)


def source_given(
    name: str,
    model: Workspace,
    loaded: Loaded,
    pictures: Mapping[str, bytes],
    writer: str = "",
) -> SourceGiven | None:
    """What is given of a build, with the pictures that were published of it and of its bases, by
    address; None where its writer gives nothing. `writer` is the base whose chapters it shows, where
    it has none of its own.
    """
    if not gives_source(name, model):
        return None
    documents: dict[str, Mapping[str, Any]] = {"site.yaml": _settings(loaded)}
    parts: set[str] = set()
    for each in chain_of(name, model):
        tree = tree_of(loaded, f"{each}/build.yaml")
        shown = [path.partition("/")[2] for path in pictures if path.startswith(f"{each}/")]
        public = public_tree(BuildSource, tree)
        public.pop("superseded_by", None)  # a build that is not in the archive
        if each not in (name, writer):
            public = _without_guide(public)
        documents[f"{each}/build.yaml"] = _without_lost_pictures(public, shown)
        parts.update(model.builds.facts[each].uses)
    documents |= _shelf(sorted(parts), model, loaded)
    own = {path: content for path, content in pictures.items() if _goes_with(path, writer or name)}
    return SourceGiven(name, documents, own, _credit(model.builds[name], model.site))


def _without_guide(tree: Mapping[str, Any]) -> dict[str, Any]:
    """The tree of a build whose chapters and files do not go along."""
    out = {key: value for key, value in tree.items() if key != "files"}
    changes = tree.get("changes")
    if isinstance(changes, list):
        out["changes"] = [_without_chapters(change) for change in changes]
    return out


def _without_chapters(change: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in change.items() if key != "chapters"}


def _goes_with(picture: str, writer: str) -> bool:
    """Whether a picture goes with a build whose chapters are by `writer`: of chapters only theirs."""
    build, _, file = picture.partition("/")
    return build == writer or not file.startswith("guide/")


def part_given(name: str, model: Workspace, loaded: Loaded) -> bytes:
    """A part as an entry for somebody's shelf; nothing where the site gives nothing, or where it
    would give something private away.
    """
    if not model.site.give_source:
        return b""
    (entries,) = _shelf((name,), model, loaded).values()
    content = written(entries).encode()
    return b"" if private_in_archive(content) else content


def tree_of(loaded: Loaded, file: str) -> dict[str, Any]:
    """What a file says; nothing where it says no keys."""
    document = loaded.documents.get(file)
    tree = document.tree if document is not None else None
    return tree if isinstance(tree, dict) else {}


def _settings(loaded: Loaded) -> dict[str, Any]:
    tree = public_tree(Site, tree_of(loaded, "site.yaml"))
    kept = {key: value for key, value in tree.items() if key not in _OF_THE_SITE_ONLY}
    return {"title": "Build sheets", **kept}


def _shelf(names: Iterable[str], model: Workspace, loaded: Loaded) -> dict[str, dict[str, Any]]:
    """The files of the shelf with these entries of each, by path."""
    files: dict[str, dict[str, Any]] = {}
    for name in names:
        file = model.shelf[name].where.file
        entry = tree_of(loaded, file)[name]
        files.setdefault(file, {})[name] = public_tree(KINDS[entry["kind"]], entry)
    return files
