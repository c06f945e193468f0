"""`benchleaf start NAME`: a new build to change into one's own."""

import sys
from functools import partial
from pathlib import Path
from typing import cast

import click

from builder.cli.common import count, print_findings, workspace_option
from builder.cli.completion import offer_builds
from builder.diagnostics.finding import Severity
from builder.diagnostics.show import harmless
from builder.load.archive import NotTaken
from builder.load.starters import ALSO_CALLED, BARE, SIZES
from builder.pipeline.begin.start import CannotStart, Started
from builder.pipeline.begin.start import start_build as begin
from builder.pipeline.begin.start_from import PartClash, WhichPart, start_from
from builder.publish.swap import PublishError
from builder.render.data.given import given_from

_PROVES = "Its digest is right: nothing was lost on the way. It does not show who made it."
_ONE_OF = (
    "--size begins a build from ours, --like copies one of yours, --from takes a published one:"
    " give one of them."
)
_STATUS = {CannotStart: 2, NotTaken: 1}
_WHICH = click.Choice(("theirs", "ours", "rename"))
_EXAMPLES = """\b
Examples:
  benchleaf start my-build                  a 3-inch one, with its parts and settings
  benchleaf start barn --size 2-inch
  benchleaf start own --size bare           only what is to be filled in, nothing invented
  benchleaf start weir-two --like dipper    a copy of one that is there, comments kept
  benchleaf start weir --from source.zip    from the source of a published sheet
  benchleaf start weir --from https://wardens.example/dipper/source.zip --rename
"""


@click.command(epilog=_EXAMPLES)
@click.argument("name")
@click.option(
    "--size",
    type=click.Choice((*ALSO_CALLED, *SIZES, BARE)),
    default=None,
    help="By propeller, or bare: only what is to be filled in, nothing invented.  [default: 3-inch]",
)
@click.option(
    "--like",
    shell_complete=offer_builds,
    default="",
    metavar="BUILD",
    help="Copy a build of this workspace in its place.",
)
@click.option(
    "--from",
    "source",
    default="",
    metavar="ZIP|FOLDER|ADDRESS",
    help="Start from a published build: its source.zip, a folder that holds it, or its address.",
)
@click.option("--theirs", "choice", flag_value="theirs", help="Of two parts that differ: theirs.")
@click.option("--ours", "choice", flag_value="ours", help="Of two parts that differ: yours.")
@click.option(
    "--rename", "choice", flag_value="rename", help="Keep yours, and theirs under another name."
)
@workspace_option
def start(
    name: str, size: str | None, like: str, source: str, choice: str | None, workspace: Path
) -> None:
    """Begin a build: builds/NAME/build.yaml, commented, with what it needs on the shelf.

    What it writes is invented and says so. A file that exists is changed only by --theirs.
    """
    _one_beginning(size, like, source, choice)
    try:
        given = _from_given(workspace, name, source, choice) if source else None
        done = given or begin(workspace, name, size or "3-inch", like)
    except (CannotStart, NotTaken) as error:
        _tell(f"benchleaf: {error.message} {error.hint}")
        sys.exit(_STATUS[type(error)])
    except PublishError as error:
        _tell(f"benchleaf: {error.message}" + (f"\n  {error.hint}" if error.hint else ""))
        sys.exit(1)
    if done.mistakes:
        print_findings(done.mistakes, done.loaded)
        _tell("benchleaf: nothing was written; fix these first.")
        sys.exit(1)
    for file in done.files:
        click.echo(f"wrote builds/{file}")
    if done.findings:
        only_remarks = all(f.severity == Severity.REMARK for f in done.findings)
        found = count(len(done.findings), "remark" if only_remarks else "finding")
        click.echo(f"{name} has {found}: `benchleaf check {name}` says which.")
    click.echo("Change it, then run `benchleaf publish`.")


def _tell(text: str) -> None:
    """Lines on standard error that cannot steer the terminal."""
    lines = map(harmless, text.split("\n"))
    click.echo("\n".join(lines), err=True)


def _one_beginning(size: str | None, like: str, source: str, choice: str | None) -> None:
    """Wrong use, where more than one beginning is given, or none that a choice goes with."""
    beginnings = (size, like, source)
    if sum(map(bool, beginnings)) > 1:
        raise click.UsageError(_ONE_OF)
    if choice and not source:
        raise click.UsageError(f"--{choice} goes with --from.")


def _from_given(workspace: Path, name: str, source: str, choice: str | None) -> Started:
    """The build of a source that was given, asking where two parts differ."""
    choose = partial(_choose, choice)
    given = given_from(source, _ask_host)
    made = start_from(workspace, name, given, choose)
    if made.files:
        click.echo(harmless(f"From: {given.credit}"))
        click.echo(_PROVES)
    return made


def _ask_host(host: str) -> bool:
    """Whether a redirect to another host is followed; nobody to ask is a no."""
    if not sys.stdin.isatty():
        return False
    question = harmless(f"The address leads on to {host}. Go there?")
    return click.confirm(question, err=True)


def _choose(choice: str | None, clash: PartClash) -> WhichPart | None:
    """Which of two parts is meant, shown side by side; None where nobody can be asked."""
    _tell(clash.side_by_side())
    if choice is None and sys.stdin.isatty():
        choice = click.prompt("Which one?", type=_WHICH, default="rename", err=True)
    return cast(WhichPart | None, choice)
