"""Photographs that the page at the bench saved go into the build's folder, and into `photos` under
their steps.

The file is somebody's: each picture is made anew, as a publish makes it, its name is given here, and
no file that is there is touched.
"""

import binascii
import datetime
import re
from base64 import b64decode
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from builder.compute.order.builder_steps import meant
from builder.compute.order.steps.work_step import Gathered
from builder.compute.order.work_order import Cycle
from builder.load.archive import NotTaken
from builder.load.limits import Limits
from builder.load.yaml_text import yaml_quoted
from builder.model.build import Build
from builder.model.values.names import picture_mistake
from builder.pages.sheet_input import SheetInput
from builder.publish.plain_files import read_at_most
from builder.render.pictures.bad_picture import BadPicture
from builder.render.pictures.published import published_picture
from builder.rules.data._private_words import private_in

MOST_PHOTOS = 100
_LONGEST = 400  # letters of a name or of words
_DIGEST = 10  # letters of a digest by which a picture is known again
_NO_NAME = re.compile(r"[^A-Za-z0-9]+")
_STEP_LETTERS = 40


@dataclass(frozen=True)
class BenchPhoto:
    """A photograph of a file: the step, the day, what it shows in words, and its bytes."""

    step: str
    day: str
    words: str
    content: bytes


@dataclass(frozen=True)
class NewPhoto:
    """A photograph for the build: the name of its file, its bytes, and its line in `photos`."""

    name: str
    content: bytes
    line: str


def _photo(given: Any, number: int) -> BenchPhoto:
    what = f"Photograph {number} of this file"
    if not isinstance(given, dict):
        raise NotTaken(f"{what} is not in the form that the page at the bench saves.")
    texts = [given.get(key) for key in ("step", "day", "words")]
    if not all(isinstance(t, str) and len(t) <= _LONGEST for t in texts):
        raise NotTaken(f"{what} has words that are no short text.")
    data = given.get("data")
    try:
        content = b64decode(data, validate=True) if isinstance(data, str) else b""
    except (binascii.Error, ValueError):
        content = b""
    if not content:
        raise NotTaken(f"{what} is no picture.")
    step, day, words = map(str, texts)
    return BenchPhoto(step, day, words, content)


def photos_in(given: Mapping[str, Any]) -> tuple[BenchPhoto, ...]:
    """The photographs of a file. NotTaken says in a sentence why they are none."""
    listed = given.get("photos")
    if not isinstance(listed, list):
        raise NotTaken("This file is not one that the page at the bench saved.")
    if len(listed) > MOST_PHOTOS:
        raise NotTaken(f"This file holds {len(listed)} photographs; {MOST_PHOTOS} are taken.")
    return tuple(_photo(one, i) for i, one in enumerate(listed, 1))


def _name(step: str, content: bytes) -> str:
    """The name of a picture's file: its step in plain letters, and its digest, so that one that is
    there is known again.
    """
    plain = _NO_NAME.sub("-", step).strip("-").casefold()[:_STEP_LETTERS].strip("-")
    digest = sha256(content).hexdigest()[:_DIGEST]
    return f"bench-{plain or 'step'}-{digest}.jpg"


def _made_anew(number: int, content: bytes, limits: Limits) -> bytes:
    try:
        return published_picture("photo.jpg", content, limits)
    except BadPicture as error:
        raise NotTaken(f"Photograph {number} of this file is none: {error}.") from error


def _alt(photo: BenchPhoto, step: str) -> str:
    said = " ".join(photo.words.split())
    private = next((what for _, what in private_in(said)), "")
    if private:
        raise NotTaken(f"The words {said[:60]!r} hold {private}; take it out on the page.")
    return said or f"Photograph taken at the bench, {step}"


def _line(photo: BenchPhoto, name: str, step: str) -> str:
    try:
        day = f", caption: 'Taken {datetime.date.fromisoformat(photo.day)}.'"
    except ValueError:
        day = ""
    alt = yaml_quoted(_alt(photo, step))
    return f"{{file: {name}, step: {yaml_quoted(step)}, alt: {alt}{day}}}"


def _known_steps(sheet: SheetInput) -> Gathered:
    plan = sheet.results.order
    return Gathered({} if isinstance(plan, Cycle) else {s.id: s for s in plan.steps})


def new_photos(
    sheet: SheetInput, photos: tuple[BenchPhoto, ...], limits: Limits, passed_over: list[str]
) -> Iterator[NewPhoto]:
    """What the build has not yet. A photograph of a step that the sheet has not is named, and
    passed over.
    """
    build, known = sheet.build, _known_steps(sheet)
    listed = {photo.file for photo in build.source.photos}
    for i, photo in enumerate(photos, 1):
        if not meant(known, photo.step):
            passed_over.append(f"photograph {i}: the sheet has no step {photo.step[:60]!r}")
            continue
        content = _made_anew(i, photo.content, limits)
        name = _name(photo.step, photo.content)
        mistake = picture_mistake(name)
        if mistake is not None:
            raise NotTaken(mistake[0])
        if name not in listed:
            listed.add(name)
            yield NewPhoto(name, content, _line(photo, name, photo.step))


def to_write(workspace: Path, build: Build, photos: tuple[NewPhoto, ...]) -> dict[str, bytes]:
    """The files that are not there yet, by path. A file of that name with other bytes is nobody's
    to touch: NotTaken.
    """
    out: dict[str, bytes] = {}
    for photo in photos:
        path = f"builds/{build.name}/{photo.name}"
        there = workspace / path
        if not there.is_symlink() and not there.exists():
            out[path] = photo.content
        elif read_at_most(there, len(photo.content)) != photo.content:
            raise NotTaken(f"The file {path} is there already and is another picture.")
    return out
