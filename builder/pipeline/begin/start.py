"""A new build: its text is made, judged before anything is written, and written beside what is
there.
"""

import hashlib
import re
from dataclasses import dataclass, replace
from pathlib import Path

from builder.diagnostics.finding import Finding
from builder.diagnostics.nearest import did_you_mean
from builder.load.files import Loaded, load
from builder.load.limits import DEFAULT_LIMITS
from builder.load.starters import FIRST_CHAPTER, Starter, read_starter, shelf_entries
from builder.load.yaml_nodes import Document, read_yaml
from builder.load.yaml_text import top_blocks
from builder.load.yaml_walk import Tree
from builder.model.read.new_build import copied, titled, unmeasured
from builder.model.read.workspace import read_workspace
from builder.model.values.names import BUILD, name_mistake
from builder.pipeline.check import judged_alone
from builder.publish.new_files import write_new

_INVENTED = """\
# Invented, to start from: no weight here was on a scale. Describe and weigh your own parts, as in
# mass: {maker: 10 g, measured: 10.2 g, scale: 0.1 g}
"""
_MARK = "  invented: yes   # take this line out when the part is your own"
_NAME_LINE = re.compile(r"^  name: .*$", re.MULTILINE)


class CannotStart(Exception):
    """Why no build was begun, in one sentence, with how to mend it."""

    def __init__(self, message: str, hint: str) -> None:
        self.message, self.hint = message, hint
        super().__init__(message)


@dataclass(frozen=True)
class Started:
    """What a start did or, with mistakes, did not do: the files, and what is to be said about the
    new build.
    """

    loaded: Loaded
    files: tuple[str, ...]
    mistakes: tuple[Finding, ...]
    findings: tuple[Finding, ...]


def _words(tree: Tree) -> frozenset[str]:
    """Every text in a tree."""
    if isinstance(tree, dict):
        return frozenset().union(*(_words(v) for v in tree.values()))
    if isinstance(tree, list):
        return frozenset().union(*(_words(v) for v in tree))
    return frozenset((tree,)) if tree else frozenset()


def document_of(file: str, text: str) -> Document:
    """A file that is to be written, read as it will be."""
    return read_yaml(file, text, hashlib.sha256(text.encode()).hexdigest(), DEFAULT_LIMITS)[0]


def _wanted(starter: Starter, there: Loaded) -> frozenset[str]:
    """Shelf entries that a starter uses or may swap to, and that are not on the shelf yet."""
    on_shelf = [there.documents[file].tree for file in there.shelf_files]
    known = {entry for tree in on_shelf if isinstance(tree, dict) for entry in tree}
    wanted = _words(document_of("build.yaml", starter.build).tree)
    for text in starter.shelf.values():
        tree = document_of("shelf.yaml", text).tree
        entries = tree.items() if isinstance(tree, dict) else ()
        for _, entry in (e for e in entries if e[0] in wanted):
            wanted |= _words(entry.get("alternatives")) if isinstance(entry, dict) else frozenset()
    return wanted - known


def _unmeasured(file: str, entries: str) -> str:
    """Entries without what somebody measured, each marked as invented until it is edited."""
    tree = document_of(file, entries).tree
    text = unmeasured(entries, tree) if isinstance(tree, dict) else entries
    return _NAME_LINE.sub(rf"\g<0>\n{_MARK}", text)


def _from_size(size: str, name: str, there: Loaded) -> dict[str, str]:
    """The starter of a size, the shelf entries that it lacks, and settings where nothing is there
    yet.
    """
    starter = read_starter(size)
    wanted = _wanted(starter, there)
    picked = {file: shelf_entries(text, wanted) for file, text in starter.shelf.items()}
    picked = {file: _unmeasured(file, entries) for file, entries in picked.items() if entries}
    files = {} if there.documents else {"site.yaml": starter.site}
    if (
        there.shelf_files and picked
    ):  # somebody's own shelf has its own order: one file beside theirs
        files[f"shelf/for-{name}.yaml"] = f"{_INVENTED}\n{''.join(picked.values())}"
    else:
        files |= {
            f"shelf/{f}": f"{_INVENTED}{top_blocks(starter.shelf[f])[0]}{entries}"
            for f, entries in picked.items()
        }
    chapter = {f"{name}/guide/01-why.md": FIRST_CHAPTER}
    return {**files, **chapter, f"{name}/build.yaml": titled(starter.build, name)}


def _like(base: str, name: str, there: Loaded) -> dict[str, str]:
    """A copy of a build that is there."""
    if base not in there.builds:
        raise CannotStart(
            f"There is no build {base!r} to start from.", did_you_mean(base, there.builds)
        )
    return {f"{name}/build.yaml": copied(there.documents[f"{base}/build.yaml"].text, base, name)}


def start_build(workspace: Path, name: str, size: str, like: str) -> Started:
    """Begin a build from another one (`like`), else from the starter of a size.

    Raises CannotStart for a name that cannot be used, PublishError where nothing can be written.
    """
    wrong = name_mistake(name, BUILD)
    if wrong is not None:
        raise CannotStart(*wrong)
    there = load(workspace)
    if not there.root.is_dir():
        there = replace(
            there, findings=()
        )  # that there is no workspace yet is what this command is for
    if name in there.names:
        raise CannotStart(
            f"The build {name!r} is there already.", "Choose another name; nothing was changed."
        )
    if like and (
        broken := [f for f in there.findings if f.where and f.where.file == f"{like}/build.yaml"]
    ):
        return Started(there, (), tuple(broken), ())
    files = _like(like, name, there) if like else _from_size(size, name, there)
    sources = {f: text for f, text in files.items() if not f.endswith(".md")}
    documents = {**there.documents, **{f: document_of(f, t) for f, t in sources.items()}}
    will_be = replace(there, documents=documents, names=(*there.names, name))
    model = read_workspace(will_be)
    if name not in model.builds:
        return Started(will_be, (), model.mistakes_of(name) or model.findings, ())
    write_new(workspace, {f"builds/{file}": text for file, text in files.items()})
    verdict = judged_alone(model.builds[name]).verdict
    return Started(will_be, tuple(files), (), (*verdict.faults, *verdict.remarks))
