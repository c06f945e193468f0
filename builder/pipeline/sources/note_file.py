"""A file that the page at the bench saved, read as data and within bounds: notes, or photographs."""

import datetime
import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from builder.load.archive import NotTaken
from builder.load.one_file import NotRead, read_one
from builder.pages.site.source_given import private_in_archive
from builder.pipeline.sources.note_photos import BenchPhoto, photos_in

_ALIEN = "This file is not one that the page at the bench saved."
KIND = "benchleaf bench notes"
KIND_OF_PHOTOS = "benchleaf bench photographs"
_MOST_KILOBYTES = 2048
_PHOTOS_KILOBYTES = 96 * 1024
_MOST_MARKS = 10_000  # of punctuation in a large file: what a page saves has a few for each picture
_MOST_ENTRIES = 20_000
_LONGEST = 400  # letters of a reading or a reason


@dataclass(frozen=True)
class BenchNotes:
    """A file of the page: its build, the day it was saved, readings and reasons by name."""

    build: str
    day: datetime.date | None
    read: Mapping[str, str]
    why: Mapping[str, str]
    flights: tuple[str, ...] = ()
    photos: tuple[BenchPhoto, ...] = ()


def _texts(what: Any) -> Mapping[str, str]:
    """A group of short texts. NotTaken for anything else."""
    if what is None:
        return {}
    if not isinstance(what, dict) or len(what) > _MOST_ENTRIES:
        raise NotTaken("The notes are not in the form that the page at the bench saves.")
    for name, text in what.items():
        if not isinstance(text, str) or max(len(name), len(text)) > _LONGEST:
            raise NotTaken(f"The notes hold something at {name[:60]!r} that is no short text.")
    return what


def _day(said: Any) -> datetime.date | None:
    try:
        return datetime.date.fromisoformat(said)
    except (TypeError, ValueError):
        return None


def _given_at(place: str) -> tuple[bytes, dict[str, Any]]:
    """The bytes of a file and what it says; a large one holds pictures, and little else."""
    path = Path(place)
    try:
        content = read_one(path.parent, path.name, _PHOTOS_KILOBYTES)
        large = len(content) > _MOST_KILOBYTES * 1024
        if large and sum(map(content.count, (b",", b"[", b"{"))) > _MOST_MARKS:
            raise NotTaken(_ALIEN)
        given = json.loads(content.decode("utf-8"))
    except NotRead as error:
        raise NotTaken(f"{place[:200]!r} cannot be read: {error.problem}") from error
    except (ValueError, RecursionError):
        raise NotTaken(_ALIEN) from None
    if not isinstance(given, dict) or given.get("version") != 1:
        raise NotTaken(_ALIEN)
    if large and given.get("kind") != KIND_OF_PHOTOS:
        raise NotTaken(f"Notes of over {_MOST_KILOBYTES} kB are not taken.")
    return content, given


def notes_at(place: str) -> BenchNotes:
    """The notes that lie at a path. NotTaken says in a sentence why they are none."""
    content, given = _given_at(place)
    if given.get("kind") == KIND_OF_PHOTOS:
        name, day = str(given.get("build", "")), _day(given.get("saved"))
        return BenchNotes(name, day, {}, {}, photos=photos_in(given))
    if given.get("kind") != KIND or not isinstance(given.get("state"), dict):
        raise NotTaken(_ALIEN)
    private = private_in_archive(content)
    if private:
        raise NotTaken(f"The notes hold {private}; take it out on the page, and save them again.")
    state = given["state"]
    name = str(given.get("build", ""))
    read, why = _texts(state.get("read")), _texts(state.get("why"))
    flights = tuple(_texts(state.get("flights")).values())
    return BenchNotes(name, _day(given.get("saved")), read, why, flights)
