"""One part onto one's own shelf: from answers, from fields that are set, or as somebody gives it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from builder.diagnostics.finding import Collector
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Where
from builder.load.archive import NotTaken
from builder.load.fetch import fetched, is_web_address
from builder.load.one_file import NotRead, read_one
from builder.model.kinds import KINDS
from builder.model.read.new_build import title_of
from builder.model.read.shelf import read_part
from builder.model.read.workspace import read_workspace
from builder.model.values.names import SHELF, name_mistake
from builder.pages.site.source_given import private_in_archive
from builder.pipeline.begin.start import document_of
from builder.pipeline.begin.start_from import (
    Giver,
    OwnShelf,
    PartClash,
    WhichPart,
    own_parts,
    replaced_on_shelf,
)
from builder.pipeline.sources.asking import Asking, as_tree, ranked_questions
from builder.pipeline.sources.given_text import given_tree, new_mistakes
from builder.pipeline.sources.questions import group_of_kind
from builder.pipeline.sources.shelf_entries import (
    Added,
    NotAdded,
    add_entries,
    entry_text,
    must_be_file,
    must_be_free,
    own_shelf,
)
from builder.pipeline.sources.workbench import put
from builder.publish.new_files import replace_one
from builder.rules.public_fields import public_tree

_MOST_BYTES = 256 * 1024
_NOBODY = "the giver"


@dataclass(frozen=True)
class Wish:
    """A part that is wanted: its kind and name, fields as `field=value`, the file it goes into."""

    kind: str
    name: str
    sets: tuple[str, ...]
    file: str


def known_kind(kind: str) -> str:
    """A kind that there is. NotAdded names the nearest one."""
    word = {"battery": "pack"}.get(kind, kind)
    if word not in KINDS:
        raise NotAdded(f"{kind[:60]!r} is not a kind of part.", did_you_mean(kind, KINDS, 30))
    return word


def begun(workspace: Path, wish: Wish) -> Asking:
    """A part with what was set of it, and what may be asked. NotAdded for what cannot be."""
    there = own_shelf(workspace)
    must_be_free(wish.name, there)
    must_be_file(wish.file)
    tree: dict[str, Any] = {"kind": wish.kind, "name": title_of(wish.name)}
    for said in wish.sets:
        tree = _set(tree, said)
    return Asking(wish.kind, tree, _currency(there.documents.get("site.yaml")), [])


def _currency(settings: Any) -> str:
    tree = settings.tree if settings is not None else None
    said = tree.get("currency") if isinstance(tree, dict) else None
    return said if isinstance(said, str) else ""


def _set(tree: dict[str, Any], said: str) -> dict[str, Any]:
    """A part with one more field. NotAdded for what is no `field=value`, or has its place taken."""
    key, sign, text = said.partition("=")
    path = tuple(step for step in key.strip().split(".") if step)
    if not sign or not path or not text.strip():
        raise NotAdded(f"{said[:60]!r} does not say a field and a value.", "Write mass=9.3g.")
    value = group_of_kind(str(tree["kind"]))
    about = next((k.value for k in value.keys if k.name == path[0]), None)
    base = {k: v for k, v in tree.items() if k != "name"} if path == ("name",) else tree
    new = put(base, path, as_tree(text, about if len(path) == 1 else None))
    if new == tree:
        raise NotAdded(f"{key.strip()[:60]!r} is set twice.")
    return dict(new)


def add_part(workspace: Path, wish: Wish, beginning: Asking, asked: Asking | None) -> Added:
    """Writes a part with what is known of it. With mistakes in what was set, nothing is written."""
    done = asked or beginning
    found = Collector()
    read_part(wish.name, done.tree, Where(wish.file, (wish.name,)), found, done.currency)
    there = own_shelf(workspace)
    if found.findings:
        first = found.findings[0]
        more = len(found.findings) - 1
        besides = f" And {more} more." if more else ""
        field = ".".join(map(str, first.where.path[1:])) if first.where is not None else ""
        raise NotAdded(f"{field}: {first.message}{besides}", f"{first.hint} Nothing was written.")
    text = entry_text(wish.name, done.tree, _not_given(done))
    return add_entries(workspace, there, {wish.name: text}, wish.file)


def _not_given(asking: Asking) -> tuple[str, ...]:
    """What was asked and is not known, what settles most first."""
    open_ones = [*asking.not_known, *asking.left]
    if not open_ones:
        return ()
    ranked = sorted(open_ones, key=lambda asked: asked.settles.rank, reverse=True)
    lines = (f"{a.key}:  {a.words}; {a.settles.words}" for a in ranked)
    return ("Not known yet:", *lines)


def with_questions(asking: Asking) -> Asking:
    """The same part with what may be asked of it, ranked."""
    return replace(asking, left=list(ranked_questions(asking.kind)))


def add_given(
    workspace: Path,
    source: str,
    name: str,
    file: str,
    choose: Callable[[PartClash], WhichPart | None],
) -> Added:
    """A part that somebody gives, onto the shelf. NotTaken or NotAdded in one sentence."""
    must_be_file(file)
    given_name, given = _given(source, name)
    there = own_shelf(workspace)
    wrong = name_mistake(given_name, SHELF)
    if wrong is not None:
        raise NotTaken(f"The part's name {given_name[:60]!r} is none that a shelf takes.")
    shelf = OwnShelf(own_parts(there), {}, {}, {})
    shelf.take(given_name, given, Giver(_NOBODY, "given"), choose)
    if shelf.unsettled:
        problem = f"On your shelf {given_name!r} differs."
        raise NotAdded(problem, "Say --theirs, --ours or --rename; nothing was written.")
    if shelf.new:
        entries = {name: entry_text(name, tree) for name, tree in shelf.new.items()}
        return add_entries(workspace, there, entries, file)
    for path, text in replaced_on_shelf(shelf, there).items():
        will_be = replace(there, documents={**there.documents, path: document_of(path, text)})
        broken = new_mistakes(read_workspace(there), will_be)
        if broken:
            return Added(will_be, path, (), broken)
        replace_one(workspace, f"builds/{path}", text.encode())
        return Added(will_be, path, tuple(shelf.replaced))
    return Added(there, file, ())


def _given(source: str, name: str) -> tuple[str, Mapping[str, Any]]:
    """The name and the public fields of a part that was given. NotTaken for what is none."""
    content = _bytes_of(source)
    if len(content) > _MOST_BYTES:
        raise NotTaken(f"It is longer than {_MOST_BYTES // 1024} kB: no part.")
    private = private_in_archive(content)
    if private:
        raise NotTaken(f"It holds {private}; ask its author for one without.")
    tree = given_tree("It", "part.yaml", content)
    entries = tree if isinstance(tree, dict) else {}
    if len(entries) != 1:
        raise NotTaken("It is not one part under its name.")
    ((given_name, given),) = entries.items()
    kind = given.get("kind") if isinstance(given, dict) else None
    if not isinstance(given, dict) or not isinstance(kind, str) or kind not in KINDS:
        raise NotTaken("It does not say which kind of part it is.")
    public = public_tree(KINDS[kind], given)
    found = Collector()
    read_part(given_name, public, Where("part.yaml", (given_name,)), found)
    if found.findings:
        raise NotTaken(f"The part in it cannot be read: {found.findings[0].message}")
    return name or given_name, public


def _bytes_of(source: str) -> bytes:
    if is_web_address(source):
        return fetched(source, most=_MOST_BYTES)
    path = Path(source)
    try:
        return read_one(path.parent, path.name, _MOST_BYTES // 1024)
    except NotRead as error:
        raise NotTaken(f"{source[:200]!r} cannot be read: {error.problem}") from error
