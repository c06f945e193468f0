"""Finds and reads the chapters of a build: `guide/*.md` in its folder, plain files, nothing else."""

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import SourcePlace, Where
from builder.load.characters import unfit
from builder.load.limits import Limits
from builder.load.one_file import NotRead, decoded_text, read_one, why

FOLDER = "guide"
_END = ".md"


@dataclass(frozen=True, slots=True)
class GuideFile:
    """A chapter as it lies there: its path below `builds/`, its text, the digest of its bytes."""

    file: str
    text: str
    digest: str


def _wrong(problem: str, hint: str, file: str, build: str) -> Finding:
    return mistake("data/guide", problem, hint, Where(file), build)


def _listed(root: Path, build: str) -> list[str]:
    """Names of the files of a guide in order, without dot-files; OSError where the folder cannot be
    looked into.
    """
    folder = root / build / FOLDER
    try:
        found = sorted(p.name for p in folder.iterdir())
    except (FileNotFoundError, NotADirectoryError):
        return []
    return [n for n in found if n.endswith(_END) and not n.startswith(".")]


def _read(root: Path, build: str, name: str, limits: Limits) -> GuideFile | Finding:
    file = f"{build}/{FOLDER}/{name}"
    odd = unfit(name)
    if odd is not None:
        problem, hint = f"The name of this file holds {odd[1]}.", "Rename it."
        return mistake("data/bad-name", problem, hint, Where(f"{build}/{FOLDER}"), build)
    try:
        raw = read_one(root / build, f"{FOLDER}/{name}", limits.chapter_kilobytes)
    except NotRead as error:
        return mistake(error.code, error.problem, error.hint, Where(file), build)
    return as_guide_file(file, raw, build)


def as_guide_file(file: str, raw: bytes, build: str) -> GuideFile | Finding:
    """A chapter by its bytes, or why they are no text."""
    try:
        text = decoded_text(raw).replace("\r", "\n")
    except NotRead as error:
        return mistake(error.code, error.problem, error.hint, Where(file), build)
    return _fit(GuideFile(file, text, hashlib.sha256(raw).hexdigest()), build)


def _fit(file: GuideFile, build: str) -> GuideFile | Finding:
    """The file, if it holds no character that steers what shows it."""
    for number, line in enumerate(file.text.split("\n")):
        odd = unfit(line)
        if odd is not None:
            where = Where(file.file, (number, 1), offset=odd[0])
            return mistake(
                "data/not-text", f"This text holds {odd[1]}.", "Take it out.", where, build
            )
    return file


def read_guide_files(
    root: Path, build: str, limits: Limits
) -> tuple[tuple[GuideFile, ...], tuple[Finding, ...]]:
    """The chapters of a build in the order of their names, and why others are not read."""
    try:
        names = _listed(root, build)
    except OSError as error:
        problem = f"This folder cannot be read: {why(error)}."
        hint = "Check that it may be read."
        found = mistake("data/unreadable", problem, hint, Where(f"{build}/{FOLDER}"), build)
        return (), (found,)
    if len(names) > limits.chapters:
        problem = f"A guide has at most {limits.chapters} chapters; here are {len(names)}."
        return (), (_wrong(problem, "Join some of them.", f"{build}/{FOLDER}", build),)
    read = [_read(root, build, name, limits) for name in names]
    files = tuple(each for each in read if isinstance(each, GuideFile))
    return files, tuple(each for each in read if isinstance(each, Finding))


def place_in_text(root: Path, where: Where, limits: Limits) -> SourcePlace | None:
    """The line of a chapter that a finding means; None where it cannot be read any more."""
    build, _, name = where.file.partition("/")
    try:
        raw = read_one(root / build, name, limits.chapter_kilobytes)
    except NotRead:
        return None
    numbers = list(_numbers(where))
    line, width = (*numbers, 0, 1)[:2] if len(numbers) == 2 else (0, 1)
    lines = raw.decode("utf-8-sig", "replace").replace("\r\n", "\n").split("\n")
    text = lines[line] if line < len(lines) else ""
    return SourcePlace(where.file, line + 1, where.offset + 1, text, max(1, width))


def _numbers(where: Where) -> Iterator[int]:
    for step in where.path:
        if isinstance(step, int):
            yield step
