"""`benchleaf start NAME`: a new build to change into one's own."""

import sys
from pathlib import Path

import click

from builder.cli.common import count, print_findings, workspace_option
from builder.cli.completion import offer_builds
from builder.diagnostics.finding import Severity
from builder.load.starters import SIZES
from builder.pipeline.start import CannotStart
from builder.pipeline.start import start_build as begin
from builder.publish.swap import PublishError

_EXAMPLES = """\b
Examples:
  benchleaf start my-build                  a 3-inch one, with its parts and settings
  benchleaf start barn --size 2-inch
  benchleaf start weir-two --like dipper    a copy of one that is there, comments kept
"""


@click.command(epilog=_EXAMPLES)
@click.argument("name")
@click.option(
    "--size", type=click.Choice(SIZES), default=None, help="By propeller.  [default: 3-inch]"
)
@click.option(
    "--like",
    shell_complete=offer_builds,
    default="",
    metavar="BUILD",
    help="Copy a build of this workspace in its place.",
)
@workspace_option
def start(name: str, size: str | None, like: str, workspace: Path) -> None:
    """Begin a build: builds/NAME/build.yaml, commented, with what it needs on the shelf.

    What it writes is invented and says so. A file that exists is never changed.
    """
    if size and like:
        raise click.UsageError(
            "--size begins a build from ours, --like copies one of yours: give one of the two."
        )
    try:
        done = begin(workspace, name, size or "3-inch", like)
    except CannotStart as error:
        click.echo(f"benchleaf: {error.message} {error.hint}", err=True)
        sys.exit(2)
    except PublishError as error:
        click.echo(
            f"benchleaf: {error.message}" + (f"\n  {error.hint}" if error.hint else ""), err=True
        )
        sys.exit(1)
    if done.mistakes:
        print_findings(done.mistakes, done.loaded)
        click.echo("benchleaf: nothing was written; fix these first.", err=True)
        sys.exit(1)
    for file in done.files:
        click.echo(f"wrote builds/{file}")
    if done.findings:
        only_remarks = all(f.severity == Severity.REMARK for f in done.findings)
        found = count(len(done.findings), "remark" if only_remarks else "finding")
        click.echo(f"{name} has {found}: `benchleaf check {name}` says which.")
    click.echo("Change it, then run `benchleaf publish`.")
