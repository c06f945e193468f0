"""`benchleaf compare A B`: two builds side by side in the terminal."""

import json
import sys
from pathlib import Path

import click

from builder import pipeline
from builder.cli.common import known_build, print_findings, workspace_option
from builder.compute.difference import compare as differences
from builder.pages.compare_text import as_record, as_text


@click.command(epilog="Example: benchleaf compare dipper dipper-light")
@click.argument("first")
@click.argument("second")
@click.option("--json", "as_list", is_flag=True, help="Print the differences as JSON.")
@workspace_option
def compare(first: str, second: str, as_list: bool, workspace: Path) -> None:
    """Show what the SECOND build has that the FIRST has not."""
    loaded, model = pipeline.read(workspace)
    for name in (first, second):
        known_build(name, model.names)
        if name not in model.builds:
            print_findings(model.mistakes_of(name), loaded)
            sys.exit(1)
    a, b = pipeline.judged(model.builds[first]), pipeline.judged(model.builds[second])
    found = differences(a.build, a.results, b.build, b.results)
    click.echo(
        json.dumps(as_record(found), ensure_ascii=False, indent=1) if as_list else as_text(found, a.build, b.build)
    )
