"""`benchleaf compare A B`: two builds side by side in the terminal."""

import json
from pathlib import Path

import click

from builder import pipeline
from builder.cli.common import sound_build, workspace_option
from builder.cli.completion import offer_builds
from builder.compute.compare.difference import difference_of as differences
from builder.diagnostics.show import harmless
from builder.pages.compare.page import compare_page
from builder.pages.compare.record import compare_record
from builder.pages.page_text import page_text
from builder.rules.could_stay import stays

_EXAMPLES = """\b
Examples:
  benchleaf compare dipper dipper-light
  benchleaf compare dipper redshank --json
"""


@click.command(epilog=_EXAMPLES)
@click.argument("first", shell_complete=offer_builds)
@click.argument("second", shell_complete=offer_builds)
@click.option("--json", "as_json", is_flag=True, help="Print the differences as JSON.")
@click.option("--all", "alike", is_flag=True, help="Show too what both have alike.")
@workspace_option
def compare(first: str, second: str, as_json: bool, alike: bool, workspace: Path) -> None:
    """Show what the SECOND build has that the FIRST has not."""
    loaded, model = pipeline.read(workspace)
    asked = [sound_build(name, model, loaded) for name in (first, second)]
    a, b = map(pipeline.judged_alone, asked)
    tried = stays(a.build, b.build, b.verdict)
    page = compare_page(a, b, tried)
    if as_json:
        found = differences(a.build, a.results, b.build, b.results)
        record = compare_record(found, page.summary, (a, b), tried)
        click.echo(json.dumps(record, indent=1))  # ASCII, so that nothing in it steers a terminal
    else:
        for line in page_text(page, alike=alike).split("\n"):
            click.echo(harmless(line))
