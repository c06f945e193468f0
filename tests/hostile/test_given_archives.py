"""Archives that a stranger made to hurt: each is refused in one sentence, and nothing is written.

They are made here by hand or by the standard library, never by the code under test.
"""

import io
import stat
import struct
import warnings
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli.main import cli
from builder.load import archive
from builder.load.archive import NotTaken, archive_files
from builder.model.values.names import path_mistake, same_on_some_disk

Entries = dict[str | zipfile.ZipInfo, bytes]


def _zip(entries: Entries, method: int = zipfile.ZIP_STORED) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", method) as made:
        for name, content in entries.items():
            made.writestr(name, content)
    return out.getvalue()


def _with(mode: int, name: str = "builds/a/build.yaml") -> bytes:
    info = zipfile.ZipInfo(name)
    info.create_system, info.external_attr = 3, mode << 16
    return _zip({info: b"/etc/passwd"})


def _flagged(flag: int) -> bytes:
    """An archive whose entry says, in both its headers, that it is encrypted."""
    content = bytearray(_zip({"builds/a/build.yaml": b"title: A\n"}))
    at = content.index(b"PK\x01\x02")
    content[6] |= flag
    content[at + 8] |= flag
    return bytes(content)


def _overlapping() -> bytes:
    """Two entries of the directory over one and the same bytes."""
    one = _zip({"builds/a/build.yaml": b"title: A\n" * 9})
    at, end = one.index(b"PK\x01\x02"), one.rindex(b"PK\x05\x06")
    entry, tail = one[at:end], bytearray(one[end:])
    tail[8:16] = struct.pack("<HHI", 2, 2, 2 * len(entry))
    return one[:at] + entry + entry + bytes(tail)


def _two_names() -> bytes:
    """The directory and the entry's own header say different names of the same length."""
    content = _zip({"builds/a/build.yaml": b"title: A\n"})
    return content.replace(b"builds/a/build.yaml", b"../../../a/evil.yaml"[:19], 1)


def _longer_than_said() -> bytes:
    """A packed entry whose directory says that it is short."""
    content = bytearray(_zip({"origin.yaml": b"0" * 5000}, zipfile.ZIP_DEFLATED))
    at = content.index(b"PK\x01\x02")
    content[at + 24 : at + 28] = struct.pack("<I", 10)
    return bytes(content)


_GOOD = _zip({"builds/a/build.yaml": b"title: A\n"})


def _twice() -> bytes:
    """Two entries of one name: which one counts hangs on the program."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made, warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)
        for title in (b"title: A\n", b"title: B\n"):
            made.writestr("builds/a/build.yaml", title)
    return out.getvalue()


def _patched(at: int, form: str, *values: int) -> bytes:
    content = bytearray(_GOOD)
    struct.pack_into(form, content, at, *values)
    return bytes(content)


def _end_says(at: int, form: str, *values: int) -> bytes:
    return _patched(_GOOD.rindex(b"PK\x05\x06") + at, form, *values)


def _directory_says(at: int, form: str, *values: int) -> bytes:
    return _patched(_GOOD.index(b"PK\x01\x02") + at, form, *values)


def _remarked(remark: bytes) -> bytes:
    return _GOOD[:-2] + struct.pack("<H", len(remark)) + remark


NAMES = (
    *("/etc/passwd", "../x.yaml", "builds/../../x", "builds//x", "./x", "builds/.", "C:/w"),
    *("c:x", "builds\\a\\build.yaml", "CON.txt", "builds/nul", "builds/a/com1.svg", "a.", "a "),
    *("builds/a/x?.svg", "builds/a/\u202egvs.exe", "a\nb", "builds/a/" + "n" * 300),
    *("builds/e\u0301/build.yaml", " x", "\\\\host\\share", "builds/a/LPT9", "aux"),
)
HOSTILE: dict[str, Callable[[], bytes]] = {
    "a link": lambda: _with(stat.S_IFLNK | 0o777),
    "a pipe": lambda: _with(stat.S_IFIFO | 0o644),
    "a device": lambda: _with(stat.S_IFCHR | 0o644),
    "encrypted": lambda: _flagged(0x1),
    "overlapping": _overlapping,
    "two names": _two_names,
    "longer than it says": _longer_than_said,
    "an entry twice": _twice,
    "a second archive behind it": lambda: _GOOD + _zip({"builds/b/build.yaml": b"title: B\n"}),
    "a second archive as its remark": lambda: _remarked(_zip({"builds/b/build.yaml": b""})),
    "bytes behind its end": lambda: _GOOD + b"x" * 50,
    "an end that counts no entry": lambda: _end_says(8, "<HH", 0, 0),
    "an end that counts nine": lambda: _end_says(8, "<HH", 9, 9),
    "an empty directory": lambda: _end_says(12, "<I", 0),
    "a directory elsewhere": lambda: _end_says(16, "<I", 3),
    "one of several disks": lambda: _end_says(4, "<H", 1),
    "a sum that is wrong": lambda: _directory_says(16, "<I", 1),
    "bytes far away": lambda: _directory_says(42, "<I", 0x7FFFFFFF),
    "a size of four gigabytes": lambda: _directory_says(20, "<II", 0xFFFFFFFF, 0xFFFFFFFF),
    "a name cut by a zero": lambda: _GOOD.replace(b"build.yaml", b"bui\0d.yaml"),
    "another kind of archive": lambda: b"7z\xbc\xaf'\x1c" + b"x" * 99,
    "another packing": lambda: _zip({"origin.yaml": b"x" * 99}, zipfile.ZIP_BZIP2),
    "something in front": lambda: b"#!/bin/sh\n" + _zip({"origin.yaml": b"title: A\n"}),
    "cut": lambda: _zip({"origin.yaml": b"title: A\n" * 99})[:300],
    "no archive": lambda: b"PK\x03\x04" + b"\0" * 200,
    "empty": lambda: b"",
    "a text": lambda: b"title: A\n",
    "two that differ by capitals": lambda: _zip({"builds/a/build.yaml": b"", "builds/a/Build.yaml": b""}),
    "a file and a folder": lambda: _zip({"builds/a": b"x", "builds/a/build.yaml": b"x"}),
    "no origin": lambda: _zip({"builds/a/build.yaml": b"title: A\n"}),
    "a wrong digest": lambda: _zip({"origin.yaml": b"build: a\ndigest: '00'\n", "builds/a/build.yaml": b"title: A\n"}),
    "too many entries": lambda: _zip({f"f{i}": b"" for i in range(archive.MOST_ENTRIES + 1)}),
}  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_a_name_that_no_folder_should_hold_is_refused(name: str) -> None:
    assert path_mistake(name)
    content = _zip({zipfile.ZipInfo("x"): b""})
    padded = name if name != "x" else "y"
    info = zipfile.ZipInfo("placeholder")
    info.filename = padded
    content = _zip({info: b"x"})
    with pytest.raises(NotTaken):
        archive_files(content, path_mistake)


def test_sound_names_are_taken() -> None:
    files: Entries = {
        "origin.yaml": b"a",
        "builds/a/Top view (1).svg": b"b",
        "builds/ü/x.png": b"c",
    }
    assert archive_files(_zip(files), path_mistake) == files
    assert archive_files(_zip(files, zipfile.ZIP_DEFLATED), path_mistake) == files


def test_both_forms_of_a_letter_and_two_sizes_are_one_file_on_some_disk() -> None:
    assert same_on_some_disk(["a/\u00fc", "a/u\u0308"]) is not None
    assert same_on_some_disk(["a/stra\u00dfe", "a/STRASSE"]) is not None
    assert same_on_some_disk(["a/b", "a/c", "ab"]) is None


def test_a_bomb_is_refused_before_it_is_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    bomb = _zip({f"f{i}": b"\0" * 2**20 for i in range(9)}, zipfile.ZIP_DEFLATED)
    assert len(bomb) < 2**15
    monkeypatch.setattr(archive, "MOST_UNPACKED", 2**23)
    monkeypatch.setattr(archive, "_read", lambda *given: pytest.fail("it was unpacked"))
    with pytest.raises(NotTaken, match="larger than 8 MB"):
        archive_files(bomb, path_mistake)
    monkeypatch.setattr(archive, "MOST_PACKED", 2**10)
    with pytest.raises(NotTaken, match="The archive is larger"):
        archive_files(bomb, path_mistake)


@pytest.mark.parametrize("kind", HOSTILE)
def test_each_is_one_sentence_and_nothing_is_written(tmp_path: Path, kind: str) -> None:
    given, workspace = tmp_path / "given.zip", tmp_path / "own"
    given.write_bytes(HOSTILE[kind]())
    done = CliRunner().invoke(
        cli, ["start", "mine", "--from", str(given), "--workspace", str(workspace)]
    )
    assert done.exit_code == 1, done.output
    assert done.exception is None or isinstance(done.exception, SystemExit)
    assert done.output.startswith("benchleaf: ") and len(done.output.splitlines()) == 1
    assert sorted(tmp_path.iterdir()) == [given]
