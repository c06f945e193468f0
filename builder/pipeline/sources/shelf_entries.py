"""Entries for one's own shelf: their text, and the file that they go into. What is there is never
written over.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from builder.diagnostics.finding import Finding
from builder.load.files import Loaded, load
from builder.load.yaml_nodes import read_yaml
from builder.load.yaml_text import NotEdited, with_entries
from builder.load.yaml_written import written
from builder.model.read.workspace import read_workspace
from builder.model.source.describe import Group
from builder.model.values.names import SHELF, folded_name, name_mistake
from builder.pipeline.begin.start import document_of
from builder.pipeline.begin.start_from import own_parts
from builder.pipeline.sources.questions import group_of_kind
from builder.publish.new_files import replace_one, write_new

OWN_FILE = "shelf/own-parts.yaml"
_HEAD = "# Parts of one's own, added by `benchleaf add`. Change them by hand as you like.\n"
_COLUMN = 40  # where the words of a key begin


class NotAdded(Exception):
    """Why nothing was added, in one sentence, with how to mend it."""

    def __init__(self, message: str, hint: str = "Nothing was written.") -> None:
        self.message, self.hint = message, hint
        super().__init__(message)


@dataclass(frozen=True)
class Added:
    """What was added, or with mistakes would have been: the sources, the file, and its entries."""

    loaded: Loaded
    file: str
    names: tuple[str, ...]
    mistakes: tuple[Finding, ...] = ()


def own_shelf(workspace: Path) -> Loaded:
    """The sources of a workspace; one that is not there yet has none."""
    there = load(workspace)
    return there if there.root.is_dir() else replace(there, findings=())


def must_be_free(name: str, there: Loaded) -> None:
    """NotAdded for a name that a shelf entry may not have, or that one has already."""
    wrong = name_mistake(name, SHELF)
    if wrong is not None:
        raise NotAdded(*wrong)
    held = own_parts(there).get(folded_name(name))
    if held is not None:
        hint = "Choose another name; nothing was written."
        raise NotAdded(f"A part {name!r} stands in builds/{held[0]} already.", hint)


def must_be_file(file: str) -> None:
    """NotAdded for what is no name of a file in the shelf."""
    name = file.removeprefix("shelf/")
    stem = name.removesuffix(".yaml")
    if stem == name or name_mistake(stem, SHELF) is not None:
        raise NotAdded(f"{name[:60]!r} is no name of a shelf file.", "Say one like motors.yaml.")


def entry_text(name: str, tree: Mapping[str, Any], not_given: Iterable[str] = ()) -> str:
    """An entry with the words of each key beside it, and what is not given below it."""
    kind = tree.get("kind")
    about = group_of_kind(kind) if isinstance(kind, str) else None
    lines = [_with_words(line, about) for line in written({name: tree}).splitlines()]
    lines += [f"  # {line}" for line in not_given]
    return "".join(f"{line}\n" for line in lines)


def _with_words(line: str, about: Group | None) -> str:
    """A line of the first depth with the words of its key."""
    key = line.strip().partition(":")[0]
    first = line.startswith("  ") and not line.startswith("   ")
    words = next((k.words for k in about.keys if k.name == key), "") if about and first else ""
    return f"{line:<{_COLUMN}} # {words}" if words and key != "kind" else line


def add_entries(
    workspace: Path,
    there: Loaded,
    entries: Mapping[str, str],
    file: str,
    besides: Mapping[str, str] | None = None,
) -> Added:
    """Writes entries, all or none, into a file of the shelf, and new files besides, such as a build
    of them. All are read first as they will be.
    """
    more = besides or {}
    block = "\n".join(entries.values())
    held = there.documents.get(file)
    try:
        text = with_entries(held.text, block) if held is not None else f"{_HEAD}\n{block}"
    except NotEdited as error:
        hint = "Name another one with --file; nothing was written."
        raise NotAdded(f"builds/{file} cannot be added to. {error}", hint) from error
    texts = {file: text, **more}
    _must_be_read_again(there, texts)
    documents = {path: document_of(path, said) for path, said in texts.items()}
    builds = tuple(path.partition("/")[0] for path in more if path.endswith("/build.yaml"))
    will_be = replace(
        there, documents={**there.documents, **documents}, names=(*there.names, *builds)
    )
    model = read_workspace(will_be)
    names = tuple(entries)
    wrong = tuple(f for f in model.findings if _is_of(f, file, names, more))
    if wrong:
        return Added(will_be, file, (), wrong)
    if held is None:
        write_new(workspace, {f"builds/{path}": said for path, said in texts.items()})
    else:  # the shelf first: a part that nothing uses yet harms nobody
        replace_one(workspace, f"builds/{file}", text.encode())
        write_new(workspace, {f"builds/{path}": said for path, said in more.items()})
    return Added(will_be, file, names)


def _must_be_read_again(there: Loaded, texts: Mapping[str, str]) -> None:
    """NotAdded for a file that would be more than what is read of a source."""
    most = there.limits.file_kilobytes
    for file, text in texts.items():
        if len(text.encode()) > most * 1024:
            hint = "Name another one with --file; nothing was written."
            raise NotAdded(f"builds/{file} would be larger than {most} kB.", hint)
        wrong = read_yaml(file, text, "", there.limits)[1]
        if wrong:
            raise NotAdded(f"builds/{file} could not be read then: {wrong[0].message}")


def _is_of(finding: Finding, file: str, names: tuple[str, ...], more: Mapping[str, str]) -> bool:
    """Whether a finding is about what would be added."""
    where = finding.where
    if where is None:
        return False
    own = where.file == file and where.path[:1] in [(n,) for n in names]
    return own or where.file in more
