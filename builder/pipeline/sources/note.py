"""Puts what was read at the bench into a build: readings under their step, weighings of the scale,
flights of the timer; or photographs under theirs.

A file that the page at the bench saved is somebody's file: it is read as data, within bounds, shown,
and written behind what is there. Nothing that stands in the build is changed.
"""

import datetime
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from builder.load.archive import NotTaken
from builder.load.files import load
from builder.load.yaml_text import NotEdited, appended, yaml_quoted
from builder.model.build import Build
from builder.model.read.workspace import read_workspace
from builder.pages.bench.bands import Band, bands_of
from builder.pipeline.begin.start import document_of
from builder.pipeline.check import judged_alone
from builder.pipeline.sources.given_text import new_mistakes
from builder.pipeline.sources.note_file import BenchNotes, notes_at
from builder.pipeline.sources.note_photos import (
    NewPhoto,
    new_photos,
    to_write,
)
from builder.publish.new_files import replace_one, write_new

_FLIGHT = re.compile(
    r"date: \d{4}-\d\d-\d\d, pack: (?P<pack>[A-Za-z0-9][A-Za-z0-9-]{0,60}), airborne: \d{1,5} s"
    r"(, landed_at: \d{1,3}(\.\d{1,2})? V)?(, used: \d{1,5}(\.\d{1,2})? mAh)?"
    r"(, air: -?\d{1,2}(\.\d{1,2})? degC)?"
)
_MASS = re.compile(r"(\d{1,5}(?:[.,]\d{1,3})?)\s*(k?g)?")


@dataclass(frozen=True)
class BenchNote:
    """What notes would add: the file as it would be, the lines that come into it, what is passed
    over, and pictures by their paths.
    """

    file: str
    text: str
    lines: tuple[str, ...]
    passed_over: tuple[str, ...] = ()
    pictures: Mapping[str, bytes] = field(default_factory=dict)


@dataclass
class _Items:
    """Lines while they are gathered, by the list that they go to. Local to a call."""

    weighed: list[str] = field(default_factory=list)
    as_built: list[str] = field(default_factory=list)
    flights: list[str] = field(default_factory=list)
    photos: list[str] = field(default_factory=list)
    passed_over: list[str] = field(default_factory=list)


def _date_of(notes: BenchNotes, said: datetime.date | None, today: datetime.date) -> datetime.date:
    """The day of the notes. A clock that is ahead of ours, or says nothing, is not believed."""
    day = said or notes.day
    if day is None or day > today:
        raise NotTaken("The notes do not say a day that can be right: say it by --date.")
    return day


def _mass(text: str) -> str | None:
    """A reading of a scale as the build writes it; None for what is none."""
    found = _MASS.fullmatch(text.strip())
    return f"{found[1].replace(',', '.')} {found[2] or 'g'}" if found else None


def _is_noted(build: Build, band: Band, mass: str) -> bool:
    """Whether the scale's list has this reading."""
    tree = build.tree.get("weighed")
    listed = tree if isinstance(tree, list) else []
    return any(
        isinstance(w, Mapping)
        and (w.get("what"), w.get("mass")) == (band.weighed, mass)
        and list(w.get("parts") or ()) == list(band.parts)
        for w in listed
    )


def _weigh(build: Build, band: Band, text: str, day: datetime.date, into: _Items) -> None:
    mass = _mass(text)
    if mass is None:
        into.passed_over.append(f"{band.label}: {text!r} is no weight")
        return
    if _is_noted(build, band, mass):
        return
    parts = f", parts: [{', '.join(map(yaml_quoted, band.parts))}]" if band.parts else ""
    into.weighed.append(f"{{what: {yaml_quoted(band.weighed)}{parts}, mass: {mass}, date: {day}}}")


def _built(build: Build, step: str, said: Iterable[tuple[str, str]]) -> str:
    """What was read at a step and is not in the build yet, in one text."""
    there = [line.measured or "" for line in build.source.as_built if line.step == step]
    known = {one for line in there for one in line.split("; ")}
    new = (f"{label}: {' '.join(text.replace(';', ',').split())}" for label, text in said)
    return "; ".join(one for one in new if one not in known)


def _fly(build: Build, notes: BenchNotes, into: _Items) -> None:
    """Flights of the timer that the log has not yet."""
    log = build.tree.get("flights")
    listed = [dict(f) for f in log if isinstance(f, Mapping)] if isinstance(log, list) else []
    for text in notes.flights:
        found = _FLIGHT.fullmatch(text)
        if found is None or found["pack"] not in build.packs:
            into.passed_over.append(f"{text[:80]!r} is no flight of a battery of this build")
        elif dict(pair.split(": ", 1) for pair in text.split(", ")) not in listed:
            into.flights.append(f"{{{text}}}")


def _reasons(notes: BenchNotes, bands: Iterable[Band]) -> str:
    told = ((b.label, notes.why.get(b.name, "").strip()) for b in bands)
    return " ".join(f"{label} may stand: {why.rstrip('.')}." for label, why in told if why)


def _by_step(bands: Iterable[Band], notes: BenchNotes) -> Iterator[tuple[str, list[Band]]]:
    """What was read, and is no weight, by its step in the order of the work."""
    rows: dict[str, list[Band]] = {}
    for band in bands:
        if notes.read.get(band.name, "").strip() and not band.weighed:
            rows.setdefault(band.step, []).append(band)
    yield from rows.items()


def _gathered(build: Build, notes: BenchNotes, day: datetime.date) -> _Items:
    """The lines that notes come to; what the sheet does not ask for is passed over and named."""
    into = _Items()
    bands = bands_of(judged_alone(build))
    for band in bands:
        text = notes.read.get(band.name, "").strip()
        if text and band.weighed:
            _weigh(build, band, text, day, into)
    for step, row in _by_step(bands, notes):
        measured = _built(build, step, [(b.label, notes.read[b.name].strip()) for b in row])
        if not measured:
            continue
        why = _reasons(notes, row)
        text = f", text: {yaml_quoted(why)}" if why else ""
        item = (
            f"{{date: {day}, step: {yaml_quoted(step)}{text}, measured: {yaml_quoted(measured)}}}"
        )
        into.as_built.append(item)
    _fly(build, notes, into)
    known = {b.name for b in bands}
    into.passed_over += [f"{n[:80]}: not on this sheet" for n in notes.read if n not in known]
    return into


def read_bench_note(
    workspace: Path, name: str, place: str, said: datetime.date | None, today: datetime.date
) -> BenchNote:
    """What a file of the page would add to a build. Nothing is written."""
    notes = notes_at(place)
    loaded = load(workspace)
    model = read_workspace(loaded)
    if name not in model.builds:
        raise NotTaken(f"The build {name[:60]!r} is not there or cannot be read.")
    if notes.build != name:
        raise NotTaken(f"These notes are of {notes.build[:60]!r}, not of {name!r}.")
    build = model.builds[name]
    found, photos = _Items(), tuple[NewPhoto, ...]()
    if notes.photos:
        sheet, passed_over = judged_alone(build), found.passed_over
        photos = tuple(new_photos(sheet, notes.photos, loaded.limits, passed_over))
        found.photos += [photo.line for photo in photos]
    else:
        found = _gathered(build, notes, _date_of(notes, said, today))
    file = f"{name}/build.yaml"
    text = loaded.documents[file].text
    try:
        for key in ("weighed", "as_built", "flights", "photos"):
            items = tuple(getattr(found, key))
            text = appended(text, key, items) if items else text
    except NotEdited as error:
        raise NotTaken(f"The build cannot be added to by itself: {error}") from error
    documents = {**loaded.documents, file: document_of(file, text)}
    new = new_mistakes(model, replace(loaded, documents=documents))
    if new:
        raise NotTaken(f"With these notes the build could not be read: {new[0].message}")
    lines = (*found.weighed, *found.as_built, *found.flights, *found.photos)
    pictures = to_write(workspace, build, photos)
    return BenchNote(file, text, lines, tuple(found.passed_over), pictures)


def write_note(workspace: Path, found: BenchNote) -> None:
    """Writes pictures where nothing is, then the build whole in the place of what is there."""
    if found.pictures:
        write_new(workspace, found.pictures)
    replace_one(workspace, f"builds/{found.file}", found.text.encode())
