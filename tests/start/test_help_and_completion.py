"""Help of every command shows how to call it, by examples that work; the shell is offered names of
builds.
"""

import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.shell_completion import BashComplete
from click.testing import CliRunner

from builder.cli.main import cli
from builder.rules.reference import codes
from tests.machine import own_environment
from tests.workspace_edits import ROOT

TOP = cli.list_commands(click.Context(cli))


def _with_inner(name: str) -> list[str]:
    """A command, and those that it holds, as they are typed."""
    found = cli.get_command(click.Context(cli), name)
    inner = found.list_commands(click.Context(found)) if isinstance(found, click.Group) else []
    return [name, *(f"{name} {one}" for one in inner)]


COMMANDS = [each for name in TOP for each in _with_inner(name)]


def command_of(name: str) -> click.Command:
    """A command by its name."""
    found: click.Command = cli
    for word in name.split():
        assert isinstance(found, click.Group)
        inner = found.get_command(click.Context(found), word)
        assert inner is not None
        found = inner
    return found


def examples(command: click.Command) -> list[str]:
    """The calls that a command's help shows, each without its remark."""
    lines = (command.epilog or "").replace("\b", "").splitlines()
    calls = [
        line.removeprefix("Example:").strip().split("   ")[0]
        for line in lines
        if "benchleaf" in line
    ]
    assert calls, f"{command.name} has no examples"
    return calls


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself_with_examples(name: str) -> None:
    done = CliRunner().invoke(cli, [*name.split(), "--help"])
    assert done.exit_code == 0
    assert "Example" in done.output
    for line in examples(command_of(name)):
        assert line in done.output  # each keeps its own line


def test_help_lists_every_command_and_imports_none() -> None:
    """Each command has its words in the list, each file of a command is listed, and help runs
    without them.
    """
    files = {path.stem for path in (ROOT / "builder/cli").glob("*.py")}
    commands = {
        name
        for name in files
        if f"def {name}(" in (ROOT / f"builder/cli/{name}.py").read_text("utf-8")
    }
    texts = {c: (ROOT / f"builder/cli/{c}.py").read_text("utf-8") for c in commands}
    marks = ("@click.command", "@click.group(epilog")
    assert set(TOP) == {c for c, text in texts.items() if any(m in text for m in marks)}
    seen = (
        "import sys; from builder.cli.main import cli; cli(['--help'], standalone_mode=False);"
        " print(*sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", seen], check=True, capture_output=True, text=True, cwd=ROOT
    )
    assert all(f"  {name} " in done.stdout for name in TOP)
    imported = set(done.stdout.splitlines()[-1].split())
    assert not imported & {"builder.model", "builder.pipeline", "pydantic", "yaml", "jinja2"}


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_says_what_it_does(name: str) -> None:
    for option in command_of(name).params:
        if isinstance(option, click.Option):
            assert option.help, option.name


@pytest.mark.parametrize("name", COMMANDS)
def test_every_example_is_a_call_that_the_command_takes(name: str) -> None:
    """Parsed, not run: unknown options and too many or too few words would be refused here."""
    command = command_of(name)
    for line in examples(command):
        call = line.split("$(")[-1].split(")")[0].split(" | ")[0].split(" > ")[0].split(" &")[0]
        words, named = shlex.split(call), name.split()
        assert words[: len(named) + 1] == ["benchleaf", *named], line
        rest = words[len(named) + 1 :]
        command.make_context(name, rest, parent=click.Context(cli))
        if isinstance(command, click.Group):  # the call of a command that it holds
            inner = command_of(f"{name} {rest[0]}")
            inner.make_context(rest[0], rest[1:], parent=click.Context(command))


def offered(root: Path, words: str, word: int) -> list[str]:
    completion = BashComplete(cli, {}, "benchleaf", "_BENCHLEAF_COMPLETE")
    old, here = dict(os.environ), Path.cwd()
    os.environ.update(COMP_WORDS=words, COMP_CWORD=str(word))
    os.chdir(root)
    try:
        args, incomplete = completion.get_completion_args()
        return [item.value for item in completion.get_completions(args, incomplete)]
    finally:
        os.chdir(here)
        os.environ.clear()
        os.environ.update(old)


def test_the_shell_is_offered_names_of_builds(root: Path, tmp_path: Path) -> None:
    assert offered(root, "benchleaf check di", 2) == ["dipper", "dipper-light"]
    assert offered(root, "benchleaf compare pipit red", 3) == ["redshank"]
    assert offered(root, "benchleaf start x --like cur", 4) == ["curlew"]
    assert offered(tmp_path, f"benchleaf trace --workspace {root} pip", 4) == ["pipit"]
    assert offered(tmp_path, "benchleaf check ", 2) == []
    assert offered(root, "benchleaf sta", 1) == ["start"]


def test_the_shell_is_offered_codes(root: Path) -> None:
    assert offered(root, "benchleaf explain wiring/tx-to", 2) == ["wiring/tx-to-tx"]
    assert offered(root, "benchleaf explain tx-to", 2) == ["wiring/tx-to-tx"]  # the family left out
    assert offered(root, "benchleaf explain data/unknown-k", 2) == [
        "data/unknown-key"
    ]  # a mistake has a code too
    assert len(offered(root, "benchleaf explain ", 2)) == len(codes())


def test_the_shell_is_offered_topics_and_then_figures(root: Path, tmp_path: Path) -> None:
    topics = offered(root, "benchleaf trace dipper ", 3)
    assert {"mass", "flight", "other"} <= set(topics)
    assert not any("/" in t for t in topics)  # hundreds of figures at once help nobody
    assert offered(root, "benchleaf trace dipper mass/dr", 3) == [
        "mass/dry-sum",
        "mass/dry/expected",
        "mass/dry",
    ]
    assert offered(root, "benchleaf trace dipper mas", 3)[:2] == ["mass", "mass/frame"]
    assert offered(root, "benchleaf trace nobody ma", 3) == []
    assert offered(tmp_path, "benchleaf trace dipper ma", 3) == []
    figures = [w for t in topics for w in offered(root, f"benchleaf trace dipper {t}/", 3)]
    assert len(figures) > 400
    assert not any(set(w) & set(" ()'$&;,") for w in figures)  # each is one word to every shell


SHELLS = {
    "bash": (
        'eval "$(cat {script})"; COMP_WORDS=({words}); COMP_CWORD={at}; _benchleaf_completion'
        ' {command}; printf "%s\\n" "${{COMPREPLY[@]}}"'
    ),
    "fish": 'source {script}; set -x PATH {folder} $PATH; complete -C "{line}"',
}


@pytest.mark.parametrize("shell", list(SHELLS))
@pytest.mark.parametrize(
    ("line", "wanted"),
    [
        ("benchleaf explain wiring/tx-to", ["wiring/tx-to-tx"]),
        ("benchleaf trace pipit mass/dry-", ["mass/dry-sum"]),
    ],
)
def test_the_tab_key_in_a_real_shell(
    shell: str, line: str, wanted: list[str], root: Path, tmp_path: Path
) -> None:
    where = shutil.which(shell)
    if where is None:
        pytest.skip(f"no {shell} on this machine")
    command = tmp_path / "benchleaf"
    command.write_text(
        f"#!{sys.executable}\nfrom builder.cli.main import cli\ncli(prog_name='benchleaf')\n",
        "utf-8",
    )
    command.chmod(0o755)
    script = tmp_path / "script"
    script.write_text(CliRunner().invoke(cli, ["completion", shell]).output, "utf-8")
    text = SHELLS[shell].format(
        script=script,
        words=line,
        at=len(line.split()) - 1,
        command=command,
        folder=tmp_path,
        line=line,
    )
    environment = {**own_environment(), "PYTHONPATH": str(root)}
    done = subprocess.run(
        [where, "-c", text],
        cwd=root,
        env=environment,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert [x.split("\t")[0].strip() for x in done.stdout.splitlines()] == wanted, done.stderr


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_each_shell_gets_a_script(shell: str) -> None:
    done = CliRunner().invoke(cli, ["completion", shell])
    assert done.exit_code == 0
    assert "_BENCHLEAF_COMPLETE" in done.output
    where = shutil.which(shell)
    if where is None:
        pytest.skip(f"no {shell} on this machine to try the script with")
    tried = subprocess.run(
        [where, "-n"], input=done.output, capture_output=True, encoding="utf-8", check=False
    )
    assert (tried.returncode, tried.stderr) == (0, "")
