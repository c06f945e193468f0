"""What a person meets in the terminal: colours only where they are wanted, lines as wide as the
terminal, faults first and the summary last, the nearest name for one that is not known.
"""

import re
from collections.abc import Iterator
from pathlib import Path
from shutil import copytree

import pytest
from click.testing import CliRunner, Result

from builder.cli.main import cli
from builder.cli.publish import report
from builder.diagnostics.fit_width import fitted
from builder.publish.kept.unchanged import Said
from tests.workspace_edits import ROOT

BROKEN = ROOT / "tests" / "broken" / "key-renamed-in-settings"
COLOUR = "\x1b["


def _run(*words: str, **environment: str) -> Result:
    return CliRunner().invoke(cli, words, env={"COLUMNS": "", **environment}, color=True)


def _source_lines(output: str) -> list[str]:
    """What stands behind the numbers of lines: it is cut around its caret, not wrapped."""
    return re.findall(r"^ *\d+ \| (.*)$", output, re.MULTILINE)


def _words(output: str) -> str:
    """All that is said, without the lines of the source and their carets."""
    said = (line for line in output.split("\n") if not re.match(r" *\d* \| ", line))
    return re.sub(r"\s+", "", "".join(said))


@pytest.fixture
def broken(tmp_path: Path) -> Iterator[str]:
    copytree(BROKEN / "builds", tmp_path / "builds")
    yield str(tmp_path)


def test_colours_are_left_out_where_nobody_wants_them(broken: str) -> None:
    """NO_COLOR as no-color.org describes it: set and not empty. A dumb terminal shows no colours
    (terminfo's entry `dumb` has none).
    """
    check = ("check", "--workspace", broken)
    assert COLOUR in _run(*check, TERM="xterm", NO_COLOR="").output
    assert COLOUR not in _run(*check, TERM="xterm", NO_COLOR="1").output
    assert COLOUR not in _run(*check, TERM="dumb", NO_COLOR="").output


@pytest.mark.parametrize("width", [40, 60, 80])
def test_lines_are_as_wide_as_the_terminal(broken: str, width: int) -> None:
    """COLUMNS is the width by POSIX.1, chapter 8. A single word may be longer."""
    done = _run("check", "--workspace", broken, TERM="dumb", COLUMNS=str(width))
    long = [line for line in done.output.split("\n") if len(line) > width]
    assert [line for line in long if len(line.split()) > 1] == []
    whole = _run("check", "--workspace", broken, TERM="dumb").output
    assert _words(whole) == _words(done.output), "no word is lost"
    cut, full = _source_lines(done.output), _source_lines(whole)
    assert len(cut) == len(full) > 0
    assert all(part.strip() in line for part, line in zip(cut, full, strict=True))


def test_the_caret_stays_under_its_word() -> None:
    line = "    12 | " + "x" * 90 + "WORD" + "y" * 90
    caret = "       | " + " " * 90 + "^^^^"
    source, marks = fitted(f"{line}\n{caret}", 50).split("\n")
    assert len(source) <= 50
    assert source[marks.index("^") :][:4] == "WORD"


@pytest.mark.parametrize(
    ("words", "near"),
    [
        (("pubish",), "publish"),
        (("chek",), "check"),
        (("explain", "wiring/tx-to-txx"), "wiring/tx-to-tx"),
        (("explain", "tx-two-tx"), "wiring/tx-to-tx"),
        (("trace", "dipper", "mass/drry"), "mass/dry"),
    ],
)
def test_the_nearest_name_is_told(words: tuple[str, ...], near: str) -> None:
    done = _run(*words, *(("--workspace", str(ROOT)) if words[0] == "trace" else ()), TERM="dumb")
    assert done.exit_code == 2
    assert f"Did you mean {near!r}?" in done.output


def test_both_names_of_an_option_do_the_same() -> None:
    words = ("check", "pipit", "--workspace", str(ROOT))
    said = {name: _run(*words, name, TERM="dumb") for name in ("--not-judged", "--unchecked")}
    assert said["--not-judged"].exit_code == 0
    assert said["--not-judged"].output == said["--unchecked"].output


def test_publish_says_faults_first_remarks_in_a_line_and_last_the_file_to_open(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    front = tmp_path / "site" / "index.html"
    front.parent.mkdir()
    front.write_text("")
    remarks = (("remark", "wren"), ("remark", "wren"), ("remark", ""))
    said = Said((*remarks, ("fault", "a/build.yaml: fault [x/y] Text.")), (), 2, 9, 1)
    report(said, 9, 0, 1.0, tmp_path)
    out, err = capsys.readouterr()
    assert err == "a/build.yaml: fault [x/y] Text.\n", "only what stops it looks like an error"
    lines = out.splitlines()
    assert lines[0] == "wren: 2 remarks, worth knowing; `benchleaf check wren` shows them"
    assert lines[1].startswith("shelf and site.yaml: 1 remark,")
    assert lines[-2].startswith("2 builds published, 9 files in site/")
    assert lines[-1] == f"Open {front}"


def test_findings_are_said_worst_first(capsys: pytest.CaptureFixture[str]) -> None:
    from builder.cli.common import print_texts

    print_texts((("remark", "r"), ("mistake", "m"), ("fault", "f"), ("remark", "r")))
    assert capsys.readouterr().err == "m\nf\nr\n"
