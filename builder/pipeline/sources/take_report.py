"""Takes in what somebody found who built a published build of ours. A report comes from a stranger:
it is read as data, within bounds, shown, and written by the one gate for names or not at all.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from builder.diagnostics.where import Origins, Where
from builder.load.archive import NotTaken
from builder.load.files import Loaded, load
from builder.load.one_file import NotRead, read_one
from builder.load.yaml_text import NotEdited, appended, appended_in, yaml_quoted
from builder.model.read.workspace import Workspace, read_workspace
from builder.model.source.report_source import ReportSource
from builder.model.trees.reading import read_as
from builder.pages.site.source_given import private_in_archive
from builder.pipeline.begin.start import document_of
from builder.pipeline.sources.given_text import given_tree, new_mistakes
from builder.pipeline.sources.report import digest_of_report
from builder.publish.new_files import replace_one

_MOST_KILOBYTES = 256
_MOST_PARTS = 200
_MOST_PIECES = 100
_MOST_LINES = 100
_LONGEST = 400  # letters of a sentence
_LONGEST_NAME = 80
_ALTERED = "The report was cut or altered on the way: its digest is not that of its words."
_DIGEST = re.compile("(?:[0-9a-f]{64})?")


@dataclass(frozen=True)
class ReportTaken:
    """What a report would add: the file of each source as it would be, and a line for each thing."""

    build: str
    by: str
    files: Mapping[str, str]
    lines: tuple[str, ...]
    passed_over: tuple[str, ...]


def report_at(place: str) -> tuple[ReportSource, Mapping[str, tuple[str, ...]]]:
    """A report that lies at a path, with the readings as they were written. NotTaken says in a
    sentence why it is none.
    """
    path = Path(place)
    try:
        content = read_one(path.parent, path.name, _MOST_KILOBYTES)
    except NotRead as error:
        raise NotTaken(f"{place[:200]!r} cannot be read: {error.problem}") from error
    private = private_in_archive(content)
    if private:
        raise NotTaken(f"The report holds {private}; ask for one without.")
    tree = given_tree("The report", "report", content)
    if not isinstance(tree, dict) or "report" not in tree:
        raise NotTaken("This file is no report of a build.")
    said, mistakes = read_as(ReportSource, tree, Origins(Where("report")))
    if said is None:
        raise NotTaken(f"The report cannot be read: {mistakes[0].message}")
    _within_bounds(said)
    if said.digest and said.digest != digest_of_report(tree):
        raise NotTaken(_ALTERED, "Ask for it again. Nothing was written.")
    pieces = tree.get("pieces")
    listed = pieces.items() if isinstance(pieces, dict) else ()
    return said, {name: tuple(map(str, each)) for name, each in listed if isinstance(each, list)}


def _within_bounds(said: ReportSource) -> None:
    """NotTaken for a report that says more than one does."""
    pieces = max((len(each) for each in said.pieces.values()), default=0)
    longest = max((len(line) for line in said.found), default=0)
    over = (
        (len(said.pieces) > _MOST_PARTS, f"has over {_MOST_PARTS} parts"),
        (pieces > _MOST_PIECES, f"has over {_MOST_PIECES} pieces of one part"),
        (len(said.found) > _MOST_LINES, f"has over {_MOST_LINES} sentences"),
        (longest > _LONGEST, f"has a sentence of over {_LONGEST} letters"),
        (max(len(said.by), len(said.build)) > _LONGEST_NAME, "has a name that is too long"),
        (not _DIGEST.fullmatch(said.report.digest), "names a digest that is none"),
        (not said.by.strip(), "does not say who it is from"),
    )
    wrong = next((words for is_over, words in over if is_over), "")
    if wrong:
        raise NotTaken(f"The report {wrong}.")


def taken(workspace: Path, place: str) -> ReportTaken:
    """What a report would add to the sources of a workspace. Nothing is written."""
    said, texts = report_at(place)
    loaded = load(workspace)
    model = read_workspace(loaded)
    name = said.report.of
    if name not in model.builds:
        raise NotTaken(f"The report is about {name[:60]!r}, which is no build here.")
    source = model.builds[name].source
    if any(
        (c.by, c.title or "", c.found) == (said.by, said.build, said.found) for c in source.copies
    ):
        raise NotTaken(f"This report of {said.by[:60]!r} was taken in before.")
    files: dict[str, str] = {}
    lines: list[str] = []
    passed_over: list[str] = []
    for part, readings in texts.items():
        if part not in model.builds[name].shelf:
            passed_over.append(part[:60])
            continue
        file = model.shelf[part].where.file
        item = _sample(said, readings)
        files[file] = _put(files.get(file) or loaded.documents[file].text, part, item)
        lines.append(f"{part}: {', '.join(readings)}")
    file = f"{name}/build.yaml"
    files[file] = _build_text(loaded.documents[file].text, said)
    lines += said.found
    _must_stay_sound(loaded, model, files)
    return ReportTaken(name, said.by, files, tuple(lines), tuple(passed_over))


def _sample(said: ReportSource, readings: tuple[str, ...]) -> str:
    pieces = ", ".join(map(yaml_quoted, readings))
    build = f", title: {yaml_quoted(said.build)}" if said.build else ""
    return f"{{by: {yaml_quoted(said.by)}{build}, pieces: [{pieces}]}}"


def _put(text: str, part: str, item: str) -> str:
    try:
        return appended_in(text, part, "samples", item)
    except NotEdited as error:
        raise NotTaken(f"The part {part!r} cannot be added to by itself: {error}") from error


def _build_text(text: str, said: ReportSource) -> str:
    found = ", ".join(map(yaml_quoted, said.found))
    title = f", title: {yaml_quoted(said.build)}" if said.build else ""
    item = f"{{by: {yaml_quoted(said.by)}{title}, found: [{found}]}}"
    try:
        return appended(text, "copies", (item,))
    except NotEdited as error:
        raise NotTaken(f"The build cannot be added to by itself: {error}") from error


def _must_stay_sound(loaded: Loaded, model: Workspace, files: Mapping[str, str]) -> None:
    """NotTaken where the sources would have a mistake that they have not got."""
    documents = {file: document_of(file, text) for file, text in files.items()}
    new = new_mistakes(model, replace(loaded, documents={**loaded.documents, **documents}))
    if new:
        raise NotTaken(f"With this report the sources could not be read: {new[0].message}")


def write_report(workspace: Path, report: ReportTaken) -> None:
    """Writes it: parts first, the build last, whose entry says that it was taken in."""
    for file, text in report.files.items():
        replace_one(workspace, f"builds/{file}", text.encode())
