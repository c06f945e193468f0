"""`benchleaf publish`: the main job."""

import sys
import time
from pathlib import Path

import click
from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn

from builder.cli.common import count, print_findings, workspace_option
from builder.diagnostics.finding import Severity
from builder.diagnostics.show import harmless
from builder.options import PublishOptions
from builder.pipeline import publish as pipeline
from builder.publish.swap import PublishError

_EXAMPLES = """\b
Examples:
  benchleaf publish                    everything, into site/
  benchleaf publish --no-pdf           pages only, in a second or two
  benchleaf publish --draft            builds with faults too, marked on every page
"""


def _with_bar(options: PublishOptions) -> pipeline.Published:
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn(), TextColumn("{task.fields[now]}"))
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("publishing", total=None, now="")

        def progress(name: str, done: int, of: int) -> None:
            bar.update(task, completed=done, total=of, now=name)

        return pipeline.publish(options, progress)


def report(done: pipeline.Published, seconds: float) -> None:
    """What was published, kept and left out, in plain lines."""
    print_findings(done.findings, done.loaded)
    for error in done.errors:
        click.echo(f"benchleaf: an error inside Benchleaf while making {harmless(error)}. Please report it.", err=True)
    for name in done.kept:
        click.echo(f"{harmless(name)}: not published now; its last published pages are kept", err=True)
    for name in done.left_out:
        click.echo(f"{harmless(name)}: not published", err=True)
    click.echo(
        f"{count(len(done.published), 'build')} published, {count(done.files, 'file')} in site/ "
        f"({done.written} written, {done.removed} removed) in {seconds:.1f} s"
    )


@click.command(epilog=_EXAMPLES)
@click.option("--draft", is_flag=True, help="Publish builds with faults too, with a mark on every page.")
@click.option("--pdf/--no-pdf", default=True, help="Make the bench sheets to print as well.  [default: pdf]")
@click.option("--workers", type=click.IntRange(0, 64), default=0, help="Worker processes; 0 takes one a core.")
@click.option("--base", default="", help="Sub-folder of the address under which the site will lie, like /sheets.")
@click.option("--careful", is_flag=True, help="Read every published file again to find hand edits.")
@click.option("--everything", is_flag=True, help="Make every page again.")
@workspace_option
def publish(draft: bool, pdf: bool, workers: int, base: str, careful: bool, everything: bool, workspace: Path) -> None:
    """Publish all builds into site/."""
    options = PublishOptions(workspace, draft, pdf, workers, base, careful=careful, everything=everything)
    start = time.perf_counter()
    try:
        done = _with_bar(options) if sys.stderr.isatty() else pipeline.publish(options)
    except PublishError as error:
        click.echo(f"benchleaf: {error.message}" + (f"\n  {error.hint}" if error.hint else ""), err=True)
        sys.exit(1)
    report(done, time.perf_counter() - start)
    mistakes = any(f.severity == Severity.MISTAKE for f in done.findings)
    sys.exit(1 if mistakes or done.kept or done.left_out or done.errors else 0)
