"""`benchleaf trace BUILD FIGURE`: opens a number down to what somebody weighed or a maker claimed."""

import sys
from pathlib import Path

import click

from builder import pipeline
from builder.cli.common import known_build, print_findings, workspace_option
from builder.cli.completion import offer_builds
from builder.compute.collect import all_figures
from builder.diagnostics.nearest import did_you_mean
from builder.pages.trace import trace_text

_EXAMPLES = """\b
Examples:
  benchleaf trace dipper               lists the figures of a build
  benchleaf trace dipper mass/dry      opens one of them
"""


@click.command(epilog=_EXAMPLES)
@click.argument("build", shell_complete=offer_builds)
@click.argument("figure", default="")
@workspace_option
def trace(build: str, figure: str, workspace: Path) -> None:
    """Show how a FIGURE of a BUILD was made. Without FIGURE: list the figures."""
    loaded, model = pipeline.read(workspace)
    known_build(build, model.names)
    if build not in model.builds:
        print_findings(model.mistakes_of(build), loaded)
        sys.exit(1)
    sheet = pipeline.judged(model.builds[build])
    figures = {f.key: f for f in all_figures(sheet.computed)}
    if not figure:
        for key, one in figures.items():
            if one.formula is not None:
                click.echo(f"{key:<44} {one.label}")
        return
    found = figures.get(figure) or figures.get(f"{build}/{figure}")
    if found is None:
        click.echo(f"benchleaf: {build} has no figure {figure!r}. {did_you_mean(figure, figures)}", err=True)
        sys.exit(2)
    click.echo(trace_text(found))
