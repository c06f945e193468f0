"""`benchleaf report`: what you found when you built somebody's build, and taking such a report in."""

import sys
from pathlib import Path

import click

from builder.cli.add_words import refusals
from builder.cli.common import count, tell_line, workspace_option
from builder.cli.completion import offer_builds
from builder.diagnostics.show import harmless
from builder.pipeline.sources.report import report_of
from builder.pipeline.sources.take_report import taken, write_report
from builder.render.data.given import given_from

_EXAMPLES = """\b
Examples:
  benchleaf report weir --against source.zip > report.yaml    to send to its author
  benchleaf report --take report.yaml          shows what others found, and asks
  benchleaf report --take report.yaml --yes    takes it in without asking
"""


@click.command(epilog=_EXAMPLES)
@click.argument("build", default="", metavar="[BUILD]", shell_complete=offer_builds)
@click.option(
    "--against",
    default="",
    metavar="ZIP|FOLDER|ADDRESS",
    help="The source that it was started from: tells parts and lengths that became others.",
)
@click.option("--take", default="", metavar="FILE", help="Take in what another builder found.")
@click.option("--yes", is_flag=True, help="Take it in without asking.")
@workspace_option
def report(build: str, against: str, take: str, yes: bool, workspace: Path) -> None:
    """Write what you found when you built BUILD after a published one, or take in such a report.

    It goes to standard output. What is taken in stands on the pages as another's word; no figure
    counts with it.
    """
    if bool(build) == bool(take):
        raise click.UsageError("Say a BUILD to write of, or --take FILE: one of them.")
    with refusals():
        if build:
            given = given_from(against, lambda host: False) if against else None
            click.echo(report_of(workspace, build, given), nl=False)
            return
        _take(workspace, take, yes=yes)


def _take(workspace: Path, place: str, *, yes: bool) -> None:
    """Shows a report and takes it in where somebody says so."""
    found = taken(workspace, place)
    tell_line(harmless(f"{found.by} built {found.build}. They say:"))
    for line in found.lines:
        tell_line(harmless(f"  {line}"))
    if found.passed_over:
        names = ", ".join(found.passed_over)
        tell_line(harmless(f"  passed over, no parts of {found.build}: {names}"))
    may = yes or (sys.stdin.isatty() and click.confirm("Take it in?", err=True))
    if not may:
        click.echo("Nothing was written. With --yes it is.")
        return
    write_report(workspace, found)
    click.echo(harmless(f"wrote {count(len(found.files), 'file')}: {', '.join(found.files)}"))
