"""A new build from what somebody gave: the parts go onto one's own shelf, the facts stay theirs."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from itertools import takewhile
from pathlib import Path
from typing import Any, Literal

from builder.load.archive import NotTaken
from builder.load.files import Loaded, load
from builder.load.starters import read_starter
from builder.load.yaml_text import top_blocks
from builder.load.yaml_written import written
from builder.model.guide.read_chapter import chapter_name
from builder.model.kinds import KINDS
from builder.model.read.given_build import given_build, given_part, history_of
from builder.model.read.new_build import title_of
from builder.model.read.workspace import read_workspace
from builder.model.source.build_along import Origin
from builder.model.source.build_source import BuildSource
from builder.model.values.names import BUILD, folded_name, name_mistake
from builder.pages.site.source_given import tree_of
from builder.pipeline.begin.start import CannotStart, Started, document_of
from builder.pipeline.beside.taken_guide import own_guide
from builder.pipeline.check import judged_alone
from builder.publish.new_files import replace_one, write_new
from builder.render.data.given import GivenSource
from builder.render.pictures.published import BadPicture, published_picture
from builder.rules.public_fields import public_tree

_NAMES_A_PART = ("use", "propeller", "alternatives")
_LONGEST_SHOWN = 60  # characters
WhichPart = Literal["theirs", "ours", "rename"]
Choose = Callable[["PartClash"], WhichPart | None]


@dataclass(frozen=True, eq=False)
class PartClash:
    """A part of one's own shelf and a given one under the same name that differ."""

    name: str
    file: str
    ours: Mapping[str, Any]
    theirs: Mapping[str, Any]

    def side_by_side(self) -> str:
        """A line for each key that differs: yours, theirs."""
        lines = [f"{self.name} differs (yours in {self.file}):"]
        for key in dict.fromkeys((*self.ours, *self.theirs)):
            ours, theirs = _short(self.ours, key), _short(self.theirs, key)
            if self.ours.get(key) != self.theirs.get(key):
                lines.append(f"  {key:16} yours {ours:28} theirs {theirs}")
        return "\n".join(lines)


@dataclass(frozen=True)
class Giver:
    """Who gave a part, and what is put behind its name where one's own has that name already."""

    by: str
    mark: str


def _short(part: Mapping[str, Any], key: str) -> str:
    """What a part says under a key, in one line; a dash for nothing."""
    if key not in part:
        return "-"
    lines = written({key: part[key]}).split(":", 1)[1]
    text = " ".join(lines.split())
    return text if len(text) <= _LONGEST_SHOWN else f"{text[:_LONGEST_SHOWN]}..."


@dataclass(eq=False)
class OwnShelf:
    """What goes onto one's own shelf, and under which name; local to a start."""

    own: dict[str, tuple[str, Mapping[str, Any]]]
    new: dict[str, Mapping[str, Any]]
    replaced: dict[str, Mapping[str, Any]]
    names: dict[str, str]
    unsettled: list[str] = field(default_factory=list)

    def take(self, name: str, given: Mapping[str, Any], giver: Giver, choose: Choose) -> None:
        """Takes one part; where one's own differs, as somebody chooses."""
        theirs = given_part(given, giver.by)
        at = self.own.get(folded_name(name))
        if at is None:
            self.new[name] = theirs
            return
        file, ours = at
        if ours in (theirs, given):
            return
        choice = choose(PartClash(name, file, ours, theirs))
        if choice is None:
            self.unsettled.append(name)
        elif choice == "theirs":
            self.replaced[name] = theirs
        elif choice == "rename":
            self.names[name] = self._free(f"{name}-{giver.mark}")
            self.new[self.names[name]] = theirs

    def _free(self, wanted: str) -> str:
        name, number = wanted[:70], 2
        while folded_name(name) in self.own or name in self.new:
            name, number = f"{wanted[:70]}-{number}", number + 1
        return name


def own_parts(there: Loaded) -> dict[str, tuple[str, Mapping[str, Any]]]:
    """The parts of a shelf by folded name, each with its file."""
    trees = {file: tree_of(there, file) for file in there.shelf_files}
    own: dict[str, tuple[str, Mapping[str, Any]]] = {}
    for file, tree in trees.items():
        entries = {name: entry for name, entry in tree.items() if isinstance(entry, dict)}
        for name, entry in entries.items():
            own[folded_name(name)] = (file, entry)
    return own


def _renamed(node: Any, names: Mapping[str, str]) -> Any:
    """A tree in which parts of the shelf have their names here: under `use` and `alternatives`."""
    if isinstance(node, list):
        return [_renamed(item, names) for item in node]
    if not isinstance(node, Mapping):
        return node
    out: dict[str, Any] = {}
    for key, value in node.items():
        out[key] = _renamed(value, names)
        if key not in _NAMES_A_PART:
            continue
        if isinstance(value, str):
            out[key] = names.get(value, value)
        elif isinstance(value, list):
            out[key] = [names.get(item, item) for item in value]
    return out


def _origins(given: GivenSource) -> list[Mapping[str, Any]]:
    """Those that the given build was started from itself, and the given build."""
    tree = given.model.builds[given.build].tree
    before = [dict(one) for one in _list(tree.get("origin"))]
    said = {key: given.origin[key] for key in Origin.model_fields if key in given.origin}
    last: dict[str, Any] = {"title": given.build, **said}
    if given.guide.chapters:
        last["chapters"] = [chapter_name(file) for file in given.guide.chapters]
    history = history_of(tree)
    if history:
        last["history"] = history
    return [*before, last]


def _list(value: Any) -> list[Any]:
    if not isinstance(value, list):
        return []
    return [x for x in value if isinstance(x, dict)]


def start_from(workspace: Path, name: str, given: GivenSource, choose: Choose) -> Started:
    """Begins a build from what was given. CannotStart or PublishError where it cannot; nothing is
    written then.
    """
    wrong = name_mistake(name, BUILD)
    if wrong is not None:
        raise CannotStart(*wrong)
    there = load(workspace)
    if not there.root.is_dir():
        there = replace(there, findings=())
    if name in there.names:
        hint = "Choose another name; nothing was changed."
        raise CannotStart(f"The build {name!r} is there already.", hint)
    build = given.model.builds[given.build]
    shelf = OwnShelf(own_parts(there), {}, {}, {})
    for part in sorted(build.shelf):
        entry = build.shelf[part]
        tree = tree_of(given.loaded, entry.where.file)[part]
        public = public_tree(KINDS[tree["kind"]], tree)
        shelf.take(part, public, Giver(given.by, given.build), choose)
    if shelf.unsettled:
        problem = f"On your shelf these differ: {', '.join(shelf.unsettled)}."
        raise CannotStart(problem, "Say --theirs, --ours or --rename; nothing was written.")
    files = _files(name, given, shelf, there)
    changed = replaced_on_shelf(shelf, there)
    documents = {f: document_of(f, t) for f, t in (files | changed).items()}
    will_be = replace(there, documents={**there.documents, **documents}, names=(*there.names, name))
    model = read_workspace(will_be)
    if name not in model.builds:
        return Started(will_be, (), model.mistakes_of(name) or model.findings, ())
    sheet = judged_alone(model.builds[name])
    guide = own_guide(sheet, given.guide)
    _write(workspace, name, guide.written(name) | files, changed, _pictures(name, given))
    found = (*guide.unknown, *sheet.verdict.faults, *sheet.verdict.remarks)
    return Started(will_be, (*guide.written(name), *files, *changed), (), found)


def _files(name: str, given: GivenSource, shelf: OwnShelf, there: Loaded) -> dict[str, str]:
    """The new files: the build, its parts, and settings of ours where nothing is there yet."""
    build = given.model.builds[given.build]
    tree = public_tree(BuildSource, build.tree)
    made = given_build(tree, title_of(name), build.title, _origins(given))
    if given.guide.listed:
        made["files"] = [
            {"name": f.name, "what": f.what, "file": f.file} for f in given.guide.listed
        ]
    giver = " ".join(given.by.split())
    head = (
        f"# Started from {' '.join(build.title.split())}, given by {giver}. What they weighed, flew"
        " and accepted\n# stands under `origin` as words and counts for nothing. Weigh and test"
        " your own.\n\n"
    )
    files = {} if there.documents else {"site.yaml": read_starter("3-inch").site}
    if shelf.new:
        parts = _renamed(shelf.new, shelf.names)
        files[f"shelf/for-{name}.yaml"] = f"# Given by {giver}.\n\n{written(parts)}"
    return {**files, f"{name}/build.yaml": head + written(_renamed(made, shelf.names))}


def replaced_on_shelf(shelf: OwnShelf, there: Loaded) -> dict[str, str]:
    """One's own files of the shelf in which a given part takes the place of one's own."""
    out: dict[str, str] = {}
    for name, theirs in shelf.replaced.items():
        file = shelf.own[folded_name(name)][0]
        before, blocks = top_blocks(out.get(file) or there.documents[file].text)
        texts = (_in_place_of(block, name, theirs) if k == name else block for k, block in blocks)
        out[file] = before + "".join(texts)
    return out


def _in_place_of(block: str, name: str, theirs: Mapping[str, Any]) -> str:
    """A given part where one's own stood; the comment above it and the blank lines below it stay."""
    lines = block.splitlines(keepends=True)
    above = "".join(takewhile(lambda line: line.startswith("#"), lines))
    below = "".join(takewhile(lambda line: not line.strip(), reversed(lines)))
    return f"{above}{written({name: theirs})}{below}"


def _pictures(name: str, given: GivenSource) -> dict[str, bytes]:
    """The pictures beside steps and of chapters, into the new build's folder."""
    build = given.model.builds[given.build]
    out = {}
    for i, step in enumerate(build.source.steps):
        folder = build.where("steps", i, "photo").file.partition("/")[0]
        content = given.pictures.get(f"{folder}/{step.photo}") if step.photo else None
        if content is not None:
            out[f"{name}/{step.photo}"] = _picture(str(step.photo), content)
    for file, content in given.guide.pictures.items():
        made = _picture(file, content)
        if out.setdefault(f"{name}/{file}", made) != made:
            raise NotTaken(f"Two pictures of it are called {file[:80]!r}.")
    return out


def _picture(name: str, content: bytes) -> bytes:
    """A picture made anew, as a publish makes it: of a stranger's bytes none is kept."""
    try:
        return published_picture(name, content)
    except BadPicture as error:
        raise NotTaken(f"The picture {name[:80]!r} in it is none: {error}.") from error


def _write(
    workspace: Path,
    name: str,
    files: Mapping[str, str | bytes],
    changed: Mapping[str, str],
    pictures: Mapping[str, bytes],
) -> None:
    """Everything that is new, all or nothing; then one's own files that change, each at once."""
    if any(not path.startswith(f"{name}/") for path in pictures):
        raise NotTaken("A picture of it has no place in the new build.")
    new: dict[str, str | bytes] = {**pictures, **files}  # the build itself comes last
    write_new(workspace, {f"builds/{path}": content for path, content in new.items()})
    for path, text in changed.items():
        replace_one(workspace, f"builds/{path}", text.encode())
