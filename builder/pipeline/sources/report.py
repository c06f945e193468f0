"""What somebody found who built a published build: written as a file, to be given back."""

import hashlib
import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from builder.load.files import Loaded, load
from builder.load.yaml_written import written
from builder.model.build import Build
from builder.model.read.given_build import history_of
from builder.model.read.workspace import read_workspace
from builder.pages.site.source_given import private_in_archive, tree_of
from builder.pipeline.sources.given_text import given_tree
from builder.pipeline.sources.shelf_entries import NotAdded
from builder.render.data.given import GivenSource

_HEAD = """\
# What we found when we built {title}. Give this file to its author, who takes it in with
# benchleaf report --take FILE

"""


def report_of(workspace: Path, name: str, against: GivenSource | None) -> str:
    """The report of a build that was started from another one. NotAdded where there is none."""
    loaded = load(workspace)
    model = read_workspace(loaded)
    if name not in model.builds:
        raise NotAdded(f"The build {name[:60]!r} is not there or cannot be read.", "")
    build = model.builds[name]
    if not build.source.origin:
        raise NotAdded(f"{name!r} was started from no published build: nobody waits for it.", "")
    first = build.source.origin[-1]
    tree = {
        "report": {"of": first.build or "", "title": first.title, "digest": first.digest or ""},
        "by": build.source.author or model.site.author or model.site.title,
        "build": build.title,
        "pieces": dict(_pieces(build, loaded)),
        "found": [*_found(build), *(_differences(build, against) if against else ())],
    }
    body = written(tree)
    digest = digest_of_report(given_tree("The report", "report", body.encode()))
    head = _HEAD.format(title=" ".join(first.title.split()))
    text = f"{head}{body}{written({'digest': digest})}"
    private = private_in_archive(text.encode())
    if private:
        raise NotAdded(f"The report would hold {private}.", "Take it out of the build first.")
    return text


def digest_of_report(tree: object) -> str:
    """The digest of a report as it was read, but for the digest itself (SHA-256, FIPS 180-4): it shows
    that nothing was lost on the way, not who wrote it.
    """
    words = {k: v for k, v in tree.items() if k != "digest"} if isinstance(tree, dict) else tree
    said = json.dumps(words, ensure_ascii=False, sort_keys=True)
    return hashlib.sha256(said.encode()).hexdigest()


def _pieces(build: Build, loaded: Loaded) -> Iterator[tuple[str, list[str]]]:
    """Readings of one's own pieces, by the name of the part: single ones, else one on the shelf."""
    uses = build.tree.get("parts")
    for key, fitted in build.parts.items():
        use = uses.get(key) if isinstance(uses, Mapping) else None
        each = use.get("each_weighed") if isinstance(use, Mapping) else None
        where = fitted.shelf_where
        mass = tree_of(loaded, where.file)[fitted.shelf].get("mass")
        said = mass if isinstance(mass, Mapping) else {}
        alone = "measured_by" not in said and "weighed_together" not in said
        one = [said["measured"]] if "measured" in said and alone else []
        if each or one:
            yield fitted.shelf, list(each or one)


def _found(build: Build) -> Iterator[str]:
    """What was weighed, flown and tried, a sentence each."""
    for line in history_of(build.tree):
        if not line.startswith(("Status", "Accepted", "Pieces")):
            yield line


def _differences(build: Build, given: GivenSource) -> Iterator[str]:
    """What was built otherwise than it was given: parts, and lengths of wires."""
    theirs = given.model.builds[given.build]
    for key, fitted in build.parts.items():
        before = theirs.parts.get(key)
        if before is None:
            yield f"Added: {key}, {fitted.part.name}."
        elif before.part.name != fitted.part.name:
            yield f"Another {key}: {fitted.part.name} in place of {before.part.name}."
    for key in theirs.parts:
        if key not in build.parts:
            yield f"Left out: {key}."
    yield from _lengths(build, theirs)


def _lengths(build: Build, theirs: Build) -> Iterator[str]:
    """Wires that are longer or shorter than they were given."""
    given = {_ends(wire): wire for wire in _wires(theirs)}
    for wire in _wires(build):
        was = given.get(_ends(wire), {})
        for word in ("length", "trim_to"):
            here, there = wire.get(word), was.get(word)
            if here and there and here != there:
                yield f"Wire {' to '.join(_ends(wire))}: {here}, not {there}."


def _wires(build: Build) -> list[Mapping[str, Any]]:
    listed = build.tree.get("wires")
    return [w for w in listed if isinstance(w, Mapping)] if isinstance(listed, list) else []


def _ends(wire: Mapping[str, Any]) -> tuple[str, str]:
    return str(wire.get("from", "")), str(wire.get("to", ""))
