"""A publish with nothing to do says what the last one said, at once; whatever changed, however
little shows, is seen.
"""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from shutil import copytree, rmtree

import pytest

from builder.options import PublishOptions
from builder.publish.kept import unchanged
from builder.publish.kept.unchanged import Said, look, nothing_new, remember
from tests.workspace_edits import ROOT

SAID = Said((("fault", "a: fault"),), ("b: not published",), 1, 2, 1)
OLD = 1_600_000_000 * 10**9  # ns; long ago
Edit = Callable[[Path], object]


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, "utf-8")


@pytest.fixture
def published(tmp_path: Path) -> PublishOptions:
    """A workspace and its site as a publish leaves them."""
    for file in (
        "builds/a/build.yaml",
        "templates/static/own.css",
        "site/a/index.html",
        "site/.benchleaf.json",
    ):
        _write(tmp_path / file, "some text")
        os.utime(tmp_path / file, ns=(OLD, OLD))
    options = PublishOptions(tmp_path)
    remember(options, look(options), SAID)
    return options


def test_remarks_are_counted_where_nothing_has_changed() -> None:
    said = Said(
        (("fault", "a: fault"), ("remark", "b: remark"), ("remark", "c: remark")), (), 2, 9, 1, 4
    )
    assert said.again == Said((("fault", "a: fault"),), (), 2, 9, 1, 6)
    assert said.again.again == said.again


def test_what_was_said_is_said_again(published: PublishOptions) -> None:
    again = nothing_new(published, look(published))
    assert again == SAID, (
        "the same values, not lists in place of pairs: the terminal drops what was said twice"
    )


def _same_size_and_time(file: str) -> Edit:
    def edit(home: Path) -> None:
        _write(home / file, "none text")
        os.utime(home / file, ns=(OLD, OLD))

    return edit


EDITS: dict[str, Edit] = {
    "source, same size and time": _same_size_and_time("builds/a/build.yaml"),
    "own style, same size and time": _same_size_and_time("templates/static/own.css"),
    "page, same size and time": _same_size_and_time("site/a/index.html"),
    "manifest, same size and time": _same_size_and_time("site/.benchleaf.json"),
    "one more source": lambda home: _write(home / "builds/b/build.yaml", "x"),
    "a source less": lambda home: (home / "builds/a/build.yaml").unlink(),
    "renamed": lambda home: (home / "builds/a").rename(home / "builds/c"),
    "page taken away": lambda home: (home / "site/a/index.html").unlink(),
    "foreign file": lambda home: _write(home / "site/a/mine.txt", "x"),
    "site taken away": lambda home: rmtree(home / "site"),
    "leftovers of a killed publish": lambda home: (home / ".site-next").mkdir(),
    "a link among the sources": lambda home: (home / "builds/a/link").symlink_to(home),
    "broken record": lambda home: _write(home / ".site-seen", '{"inputs": 3}'),
    "no record": lambda home: (home / ".site-seen").unlink(),
}


@pytest.mark.parametrize("edit", EDITS.values(), ids=EDITS.keys())
def test_every_change_is_seen(published: PublishOptions, edit: Edit) -> None:
    edit(published.workspace)
    assert nothing_new(published, look(published)) is None


@pytest.mark.parametrize(
    "other",
    [{"draft": True}, {"pdf": False}, {"base": "/x"}, {"careful": True}, {"everything": True}],
)
def test_other_options_are_other_work(published: PublishOptions, other: dict[str, object]) -> None:
    options = PublishOptions(published.workspace, **other)  # type: ignore[arg-type]  # mixed values
    assert nothing_new(options, look(options)) is None


def test_a_young_file_is_known_by_its_bytes(
    published: PublishOptions, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Files of this test were written just now; were all times and sizes equal, their bytes would
    tell.
    """
    monkeypatch.setattr(unchanged, "_row", lambda path, stat: path)
    remember(published, look(published), SAID)
    assert nothing_new(published, look(published)) is not None
    _write(published.workspace / "builds/a/build.yaml", "none text")
    assert nothing_new(published, look(published)) is None


def test_what_changed_during_a_publish_is_not_remembered(published: PublishOptions) -> None:
    before = look(published)
    (published.workspace / ".site-seen").unlink()
    _write(published.workspace / "builds/a/build.yaml", "saved while pages were made")
    remember(published, before, SAID)
    assert nothing_new(published, look(published)) is None


SLOW = ("weasyprint", "pydantic", "jinja2", "markdown_it", "pint", "rich", "yaml")
PROBE = f"""
import sys
from builder.cli import main
try:
    main()
finally:
    print("imported:", *sorted(set({SLOW!r}) & sys.modules.keys()))
"""


def test_nothing_to_do_imports_nothing_slow(tmp_path: Path) -> None:
    """And says the same on standard error, with the same exit status."""
    copytree(ROOT / "builds/shelf", tmp_path / "builds/shelf")
    copytree(ROOT / "builds/pipit", tmp_path / "builds/pipit")
    _write(tmp_path / "builds/broken/build.yaml", "titel: Broken")
    words = [
        sys.executable,
        "-c",
        PROBE,
        "publish",
        "--no-pdf",
        "--workers",
        "1",
        "--workspace",
        str(tmp_path),
    ]
    first, second = (
        subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=False)
        for _ in range(2)
    )
    assert "pydantic" in first.stdout
    assert second.stdout.splitlines()[-1] == "imported:"
    assert "(0 written, 0 removed)" in second.stdout
    assert (second.stderr, second.returncode) == (first.stderr, first.returncode)
    assert "unknown-key" in second.stderr
    assert second.returncode == 1


def _sparse(path: Path, size: int) -> None:
    path.touch()
    os.truncate(path, size)


def test_what_no_publish_reads_is_never_opened(
    published: PublishOptions, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A recording of a terabyte beside a build, which is as young as can be."""
    _sparse(published.workspace / "builds/a/flight.mkv", 10**12)
    opened: list[str] = []
    real = os.open

    def watched(path: str, *more: int, **others: int) -> int:
        opened.append(str(path))
        return real(path, *more, **others)

    monkeypatch.setattr(os, "open", watched)
    before = look(published)
    remember(published, before, SAID)
    assert before is not None
    assert nothing_new(published, look(published)) == SAID
    assert any(path.endswith("build.yaml") for path in opened) or not before.young
    assert not [path for path in opened if path.endswith(".mkv")]
    _sparse(published.workspace / "builds/a/flight.mkv", 10**12 + 1)
    assert nothing_new(published, look(published)) is None, "its size counts all the same"


def test_a_young_file_of_a_terabyte_is_not_looked_through(published: PublishOptions) -> None:
    """And nothing is said of how the others lie, so that the next publish looks closely."""
    _sparse(published.workspace / "builds/a/top.png", 10**12)
    assert look(published) is None


def test_young_files_are_read_in_pieces(published: PublishOptions) -> None:
    import tracemalloc

    (published.workspace / "builds/a/top.png").write_bytes(os.urandom(1000) * 60_000)
    tracemalloc.start()
    found = look(published)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert found is not None and any(path.endswith("top.png") for path in found.young)
    assert peak < 8_000_000


def test_a_pipe_in_the_place_of_a_young_file_is_not_waited_for(published: PublishOptions) -> None:
    file = published.workspace / "builds/a/build.yaml"
    _write(file, "young")
    now = look(published)
    remember(published, now, SAID)
    file.unlink()
    os.mkfifo(file)
    assert nothing_new(published, now) is None
