"""Archives whose digest is right and that hurt all the same: what they hold, how they are packed,
what they say of themselves. Each is one sentence, and nothing is written.

They are made here by hand or by the standard library; the digest by its own description (SHA-256
over paths, lengths and bytes).
"""

import hashlib
import io
import struct
import time
import warnings
import zipfile
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli.main import cli

pytestmark = pytest.mark.slow  # takes long

_BUILD = b"title: A\nsummary: x\nparts: {}\n"
_STEP = _BUILD + b"steps: [{id: a, do: fit, text: Put it on., photo: %s, alt: x}]\n"
_SVG = b"<svg xmlns='http://www.w3.org/2000/svg'>%s</svg>"
_AT = "builds/a/build.yaml"


def _digest(files: Mapping[str, bytes]) -> str:
    found = hashlib.sha256()
    for path in sorted(files):
        found.update(f"{path}\0{len(files[path])}\0".encode() + files[path])
    return found.hexdigest()


def _source(
    more: Mapping[str, bytes] | None = None,
    build: str = "a",
    said: bytes = b"",
    own: bytes = _BUILD,
) -> bytes:
    """A sound source but for what is said otherwise."""
    files = {_AT: own, **(more or {})}
    origin = f"build: {build}\ndigest: {_digest(files)}\n".encode() + said
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for name, content in {**files, "origin.yaml": origin}.items():
            made.writestr(zipfile.ZipInfo(name), content)
    return out.getvalue()


def _changed(at: int, value: bytes) -> bytes:
    """A sound source in which some bytes of its first header are others."""
    sound = _source()
    return sound[:at] + value + sound[at + len(value) :]


def _twice() -> bytes:
    out = io.BytesIO(_source())
    with zipfile.ZipFile(out, "a") as made, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        made.writestr(_AT, b"title: Evil\n")
    return out.getvalue()


def _large_directory(size: int) -> bytes:
    """A directory whose entry says its size in 64 bits, and lies (APPNOTE 4.5.3, from memory)."""
    name, sums = _AT.encode(), (zlib.crc32(_BUILD), len(_BUILD), len(_BUILD))
    here = struct.pack("<4s5H3I2H", b"PK\3\4", 45, 0, 0, 0, 33, *sums, len(name), 0) + name + _BUILD
    extra = struct.pack("<HHQQ", 1, 16, size, len(_BUILD))
    most = (zlib.crc32(_BUILD), 2**32 - 1, 2**32 - 1, len(name), len(extra), 0, 0, 0, 0, 0)
    entry = struct.pack("<4s6H3I5H2I", b"PK\1\2", 45, 45, 0, 0, 0, 33, *most) + name + extra
    return here + entry + struct.pack("<4s4H2IH", b"PK\5\6", 0, 0, 1, 1, len(entry), len(here), 0)


def _large_end() -> bytes:
    """An end that says in 64 bits that the directory is far away and immense."""
    sound = _source()
    end = sound.rindex(b"PK\5\6")
    there = struct.pack("<4sQ2H2I4Q", b"PK\6\6", 44, 45, 45, 0, 0, 2**40, 2**40, 2**50, 2**50)
    found = struct.pack("<4sIQI", b"PK\6\7", 0, end, 1)
    tail = bytearray(sound[end:])
    tail[8:20] = struct.pack("<HHII", 0xFFFF, 0xFFFF, 2**32 - 1, 2**32 - 1)
    return sound[:end] + there + found + bytes(tail)


def _renamed() -> bytes:
    """An entry with a field that gives it another name."""
    info, other = zipfile.ZipInfo(_AT), b"../../evil.yaml"
    said = struct.pack("<BI", 1, zlib.crc32(_AT.encode())) + other
    info.extra = struct.pack("<HH", 0x7075, len(said)) + said
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made:
        made.writestr(info, _BUILD)
    return out.getvalue()


def _as_owner() -> bytes:
    info, out = zipfile.ZipInfo(_AT), io.BytesIO()
    info.create_system, info.external_attr = 3, 0o104755 << 16
    with zipfile.ZipFile(out, "w") as made:
        made.writestr(info, _BUILD)
    return out.getvalue()


def _bomb() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for i in range(130):
            made.writestr(f"builds/a/{i}.svg", b"\0" * 2**20)
    return out.getvalue()


_SHELF = "builds/shelf/x.yaml"
_CAMERA = b"title: A\nparts: {camera: {use: '%s'}}\n"
CASES: dict[str, Callable[[], bytes]] = {
    "wrong sum": lambda: _source().replace(b"title: A", b"title: B", 1),
    "one name twice": _twice,
    "a name with NUL": lambda: _source().replace(b"a/build.yaml", b"a/buil\0.yaml"),
    "folders that differ by capitals": lambda: _source({"builds/A/build.yaml": _BUILD}),
    "an archive inside": lambda: _source({"builds/a/x.zip": _source()}),
    "an archive as a picture": lambda: _source({"builds/a/x.svg": _source()}, own=_STEP % b"x.svg"),
    "templates": lambda: _source({"templates/page.html": b"{{ 1 }}"}),
    "a script": lambda: _source({"builds/a/run.py": b"import os"}),
    "a site": lambda: _source({"site/index.html": b"x"}),
    "ten to the fifth entries": lambda: _source({f"builds/a/{i}.svg": b"" for i in range(100_000)}),
    "a size of 64 bits": lambda: _large_directory(2**60),
    "a size below nothing": lambda: _large_directory(2**64 - 1),
    "a size of one": lambda: _large_directory(1),
    "an end of 64 bits": _large_end,
    "two sizes": lambda: _changed(18, struct.pack("<II", 5, 5)),
    "two packings": lambda: _changed(8, b"\x08\0"),
    "encrypted in its own header": lambda: _changed(6, b"\x01"),
    "two archives in a row": lambda: _source() + _source(),
    "another name in a field": _renamed,
    "runs as its owner": _as_owner,
    "a bomb": _bomb,
    "an anchor": lambda: _source(own=b"a: &a [x, x]\ntitle: *a\n"),
    "too deep": lambda: _source(own=b"title: " + b"[" * 50_000),
    "a tag": lambda: _source(own=b"title: !!python/object/apply:os.system ['id']\n"),
    "no letters": lambda: _source(own=b"title: \xff\xfe\n"),
    "endless text": lambda: _source(own=_BUILD + b"#" + b"x" * 30_000_000),
    "much text": lambda: _source({f"builds/shelf/{i}.yaml": b"#" * 500_000 for i in range(20)}),
    "a build outside": lambda: _source(build="../a"),
    "a build from the root": lambda: _source(build="/etc"),
    "a build that is none": lambda: _source(build="shelf"),
    "a build that is not there": lambda: _source(build="b"),
    "an author that steers": lambda: _source(said=b'author: "\\e]0;x\\a"\n'),
    "an author that turns": lambda: _source(said="author: \u202egnp\n".encode()),
    "an author without end": lambda: _source(said=b"author: " + b"x" * 5000),
    "a title that steers": lambda: _source(own=b'title: "\\e[31mA"\nparts: {}\n'),
    "a picture outside": lambda: _source(own=_BUILD + b"hero: {file: ../../x.svg, alt: x}\n"),
    "a picture that runs": lambda: _source(
        {"builds/a/x.svg": _SVG % b"<script>alert(1)</script>"}, own=_STEP % b"x.svg"
    ),
    "a picture that reads files": lambda: _source(
        {
            "builds/a/x.svg": b"<!DOCTYPE a [<!ENTITY x SYSTEM 'file:///etc/passwd'>]>"
            + _SVG % b"&x;"
        },
        own=_STEP % b"x.svg",
    ),
    "a picture that is none": lambda: _source(
        {"builds/a/x.png": b"\x89PNG\r\n\x1a\n" + b"\0" * 99}, own=_STEP % b"x.png"
    ),
    "a part outside": lambda: _source(
        {_SHELF: b"'../evil': {kind: camera, name: x}\n"}, own=_CAMERA % b"../evil"
    ),
    "a part that is markup": lambda: _source(
        {_SHELF: b"'<b>': {kind: camera, name: x}\n"}, own=_CAMERA % b"<b>"
    ),
    "a part that is a device": lambda: _source(
        {_SHELF: b"CON: {kind: camera, name: x}\n"}, own=_CAMERA % b"CON"
    ),
    "a part of no kind": lambda: _source(
        {_SHELF: b"evil: {kind: bomb, name: x}\n"}, own=_CAMERA % b"evil"
    ),
    "builds in a circle": lambda: _source(
        {"builds/b/build.yaml": b"title: B\nbased_on: a\n"}, own=b"title: A\nbased_on: b\n"
    ),
    "private words": lambda: _source(
        own=_BUILD + b"questions: [{ask: a, answer: operator number is A1234567}]\n"
    ),
}


def _start(given: Path, workspace: Path) -> tuple[int, list[str], float]:
    began = time.monotonic()
    words = ["start", "mine", "--from", str(given), "--workspace", str(workspace)]
    done = CliRunner().invoke(cli, words)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return done.exit_code, done.output.splitlines(), time.monotonic() - began


def test_a_sound_source_is_taken(tmp_path: Path) -> None:
    """Else the cases below could be refused for what they have in common."""
    given = tmp_path / "given.zip"
    given.write_bytes(_source({"builds/a/x.svg": _SVG % b""}, own=_STEP % b"x.svg"))
    code, lines, _ = _start(given, tmp_path / "own")
    assert code == 0, lines
    assert (tmp_path / "own/builds/mine/x.svg").is_file()


@pytest.mark.parametrize("kind", CASES)
def test_each_is_one_sentence_and_nothing_is_written(tmp_path: Path, kind: str) -> None:
    given = tmp_path / "given.zip"
    given.write_bytes(CASES[kind]())
    code, lines, took = _start(given, tmp_path / "own")
    assert code == 1 and len(lines) == 1, lines
    assert lines[0].startswith("benchleaf: ") and lines[0].isprintable()
    assert lines[0].endswith("Nothing was written.")
    assert sorted(tmp_path.iterdir()) == [given]
    assert took < 10
