"""`benchleaf compare A B`: two builds side by side in the terminal."""

import json
import sys
from pathlib import Path

import click

from builder import pipeline
from builder.cli.common import known_build, print_findings, workspace_option
from builder.cli.completion import offer_builds
from builder.compute.difference import compare as differences
from builder.diagnostics.show import harmless
from builder.pages.compare_findings import finding_words, limit_words
from builder.pages.compare_text import as_record, as_text
from builder.pages.verdict_line import verdict_line

_EXAMPLES = """\b
Examples:
  benchleaf compare dipper dipper-light
  benchleaf compare dipper redshank --json
"""


@click.command(epilog=_EXAMPLES)
@click.argument("first", shell_complete=offer_builds)
@click.argument("second", shell_complete=offer_builds)
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
    a, b = pipeline.judged_alone(model.builds[first]), pipeline.judged_alone(model.builds[second])
    found = differences(a.build, a.results, b.build, b.results)
    clauses = (*limit_words(a, b), *finding_words(a, b))
    if as_list:
        record = as_record(found, verdict_line(found, a.build, b.build, clauses))
        click.echo(json.dumps(record, indent=1))  # ASCII, so that nothing in it steers a terminal
    else:
        for line in as_text(found, a.build, b.build, clauses).split("\n"):
            click.echo(harmless(line))
