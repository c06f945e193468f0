"""Sources of strangers with a guide: chapters, pictures and files that go along are taken by sound
names and as words, or the source is refused in one sentence and nothing is written.
"""

import hashlib
import io
import zipfile
from collections.abc import Mapping
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli.main import cli

_BUILD = b"title: A\nsummary: x\nparts: {}\n"
_SVG = b"<svg xmlns='http://www.w3.org/2000/svg'>%s</svg>"
_CHAPTER = "builds/a/guide/01-why.md"
_SHOWS = b"# Why\n\n![a wedge](x.svg)\n"


def _archive(more: Mapping[str, bytes], own: bytes = _BUILD) -> bytes:
    """A source whose digest is right."""
    files = {"builds/a/build.yaml": own, **more}
    found = hashlib.sha256()
    for path in sorted(files):
        found.update(f"{path}\0{len(files[path])}\0".encode() + files[path])
    origin = f"build: a\ntitle: A\nauthor: Giver\ndigest: {found.hexdigest()}\n"
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as made:
        for name, content in {**files, "origin.yaml": origin.encode()}.items():
            made.writestr(zipfile.ZipInfo(name), content)
    return out.getvalue()


def _files(file: str) -> bytes:
    return _BUILD + f"files: [{{name: a.txt, what: x, file: '{file}'}}]\n".encode()


CASES: dict[str, tuple[Mapping[str, bytes], bytes]] = {
    "a link that runs": ({_CHAPTER: b"# W\n\n[x](javascript:alert(1))\n"}, _BUILD),
    "a link into the disk": ({_CHAPTER: b"# W\n\n[x](file:///etc/passwd)\n"}, _BUILD),
    "no title": ({_CHAPTER: b"words\n"}, _BUILD),
    "no letters": ({_CHAPTER: b"# \xff\xfe\n"}, _BUILD),
    "letters that steer": ({_CHAPTER: "# W\n\n\u202egnp\n".encode()}, _BUILD),
    "private words": ({_CHAPTER: b"# W\n\npairing code: 1234\n"}, _BUILD),
    "endless": ({_CHAPTER: b"# W\n\n" + b"x " * 40_000}, _BUILD),
    "a chapter further down": ({"builds/a/guide/deep/01-why.md": b"# W\n"}, _BUILD),
    "a chapter elsewhere": ({"builds/a/other/why.md": b"# W\n"}, _BUILD),
    "a chapter that is a device": ({"builds/a/guide/con.md": b"# W\n"}, _BUILD),
    "a chapter outside": ({"builds/a/guide/../../../w.md": b"# W\n"}, _BUILD),
    "two chapters of one address": (
        {_CHAPTER: b"# W\n", "builds/a/guide/02-why.md": b"# W\n"},
        _BUILD,
    ),
    "sixty-one chapters": ({f"builds/a/guide/c{i}.md": b"# W\n" for i in range(61)}, _BUILD),
    "a picture that is lacking": ({_CHAPTER: _SHOWS}, _BUILD),
    "a picture that runs": (
        {_CHAPTER: _SHOWS, "builds/a/guide/x.svg": _SVG % b"<script>alert(1)</script>"},
        _BUILD,
    ),
    "a picture outside": (
        {_CHAPTER: b"# W\n\n![x](../../x.svg)\n", "builds/x.svg": _SVG % b""},
        _BUILD,
    ),
    "a file that is lacking": ({}, _files("a.txt")),
    "a file outside": ({}, _files("../../../etc/hostname.txt")),
    "the build itself as a file": ({}, _files("build.yaml")),
    "a file of another ending": ({"builds/a/run.sh": b"rm"}, _files("run.sh")),
    "a picture as a file": (
        {"builds/a/x.svg": _SVG % b"<script>alert(1)</script>"},
        _files("x.svg"),
    ),
    "a file that nobody names": ({"builds/a/b.txt": b"x"}, _files("a.txt")),
}


def _start(given: Path, workspace: Path) -> tuple[int, list[str]]:
    words = ["start", "mine", "--from", str(given), "--workspace", str(workspace)]
    done = CliRunner().invoke(cli, words)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return done.exit_code, done.output.splitlines()


def test_a_sound_guide_is_taken(tmp_path: Path) -> None:
    """Else the cases below could be refused for what they have in common."""
    given = tmp_path / "given.zip"
    more = {_CHAPTER: _SHOWS, "builds/a/guide/x.svg": _SVG % b"", "builds/a/a.txt": b"x"}
    given.write_bytes(_archive(more, _files("a.txt")))
    code, lines = _start(given, tmp_path / "own")
    assert code == 0, lines
    mine = tmp_path / "own/builds/mine"
    found = {p.relative_to(mine).as_posix() for p in mine.rglob("*") if p.is_file()}
    assert found == {"build.yaml", "guide/01-why.md", "guide/x.svg", "a.txt"}


@pytest.mark.parametrize("kind", CASES)
def test_each_is_one_sentence_and_nothing_is_written(tmp_path: Path, kind: str) -> None:
    given = tmp_path / "given.zip"
    more, own = CASES[kind]
    given.write_bytes(_archive(more, own))
    code, lines = _start(given, tmp_path / "own")
    assert code == 1 and len(lines) == 1, lines
    assert lines[0].startswith("benchleaf: ") and lines[0].isprintable()
    assert lines[0].endswith("Nothing was written.")
    assert sorted(tmp_path.iterdir()) == [given]
