"""`benchleaf note`: what was read at the bench goes into the build."""

import datetime
import sys
from pathlib import Path

import click

from builder.cli.add_words import refusals
from builder.cli.common import count, tell_line, workspace_option
from builder.cli.completion import offer_builds
from builder.diagnostics.show import harmless
from builder.pipeline.sources.note import read_bench_note, write_note

_EXAMPLES = """\b
Examples:
  benchleaf note dipper dipper-bench.json          shows the lines, and asks
  benchleaf note dipper dipper-bench.json --yes    writes them without asking
"""


_BUILD = click.argument("build", shell_complete=offer_builds)
_FILE = click.argument("file", type=click.Path())
_YES = click.option("--yes", is_flag=True, help="Write the lines without asking.")
_DAY = click.option(
    "--date",
    "day",
    type=click.DateTime(["%Y-%m-%d"]),
    help="The day of the readings, where the device's clock was wrong.",
)


@click.command(epilog=_EXAMPLES)
@_BUILD
@_FILE
@_DAY
@_YES
@workspace_option
def note(build: str, file: str, day: datetime.datetime | None, yes: bool, workspace: Path) -> None:
    """Put what was read at the bench into BUILD: FILE is what its page `bench/` exported.

    Weights go to `weighed`, all else to `as_built` under its step. No line of the build is
    changed, and comments stay.
    """
    said = day.date() if day is not None else None
    with refusals():
        found = read_bench_note(
            workspace, build, file, said, datetime.datetime.now().astimezone().date()
        )
        for line in found.lines:
            tell_line(harmless(f"  - {line}"))
        for line in found.passed_over:
            tell_line(harmless(f"  passed over, {line}"))
        if not found.lines:
            click.echo("Nothing to write: the build has it all.")
            return
        may = yes or (sys.stdin.isatty() and click.confirm("Write these lines?", err=True))
        if not may:
            click.echo("Nothing was written. With --yes it is.")
            return
        write_note(workspace, found)
        click.echo(f"wrote {count(len(found.lines), 'line')} into builds/{found.file}")
