"""`benchleaf choose BUILD`: the best that the shelf can do for a build, every rule satisfied."""

import sys
from pathlib import Path

import click

from builder import pipeline
from builder.cli.choose_words import wish_of
from builder.cli.common import sound_build, workspace_option
from builder.cli.completion import offer_builds
from builder.compute.choose.selected_build import written_out as variant_of
from builder.compute.choose.wish import Goal
from builder.diagnostics.show import harmless
from builder.load.variant_yaml import variant_yaml
from builder.pages.blocks import Page
from builder.pages.choose.choose_answer import answer_section, front_section
from builder.pages.page_text import page_text
from builder.rules.choose.answer import best_of_each_number
from builder.rules.choose.search import choose_swaps

_EXAMPLES = """\b
Examples:
  benchleaf choose dipper                         what nothing beats in weight, price and time
  benchleaf choose dipper --under '250 g'         longest in the air below a weight
  benchleaf choose dipper --under '310 EUR'       and below a price
  benchleaf choose dipper --at-least '8 min' --lightest
  benchleaf choose dipper --longest --written-out > builds/dipper-far/build.yaml
"""


@click.command(epilog=_EXAMPLES)
@click.argument("build", shell_complete=offer_builds)
@click.option("--under", multiple=True, metavar="LIMIT", help="Below this weight or price.")
@click.option("--at-least", metavar="TIME", help="At least so long in the air.")
@click.option("--longest", "goal", flag_value="longest", help="The longest in the air first.")
@click.option("--lightest", "goal", flag_value="lightest", help="The lightest first.")
@click.option("--cheapest", "goal", flag_value="cheapest", help="The cheapest first.")
@click.option("--written-out", is_flag=True, help="Print the best as the file of a variant.")
@workspace_option
def choose(
    build: str,
    under: tuple[str, ...],
    at_least: str | None,
    goal: Goal | None,
    written_out: bool,
    workspace: Path,
) -> None:
    """Find the swaps of shelf parts that bring a BUILD where you want it.

    Up to three parts are swapped, and every check has to pass. Exit status 1: nothing does it.
    """
    loaded, model = pipeline.read(workspace)
    sheet = pipeline.judged_alone(sound_build(build, model, loaded))
    wish = wish_of(under, at_least, goal or "longest", sheet.build.site.currency)
    if not sheet.build.packs:
        click.echo(f"benchleaf: {build} has no battery, so no time in the air is known.", err=True)
        sys.exit(1)
    found = choose_swaps(sheet.build, dict(model.shelf), sheet.results, sheet.verdict)
    best = best_of_each_number(found, wish)
    if written_out and best:
        swaps = [o.shelf for o in best[-1].selection.swaps]
        title = f"{sheet.build.title} {' '.join(('with', *swaps)) if swaps else 'as it is'}"
        tree = variant_of(sheet.build, best[-1].selection, title)
        for line in variant_yaml(tree).splitlines():
            click.echo(harmless(line))
        return
    asked = wish.is_bounded or goal is not None
    section = answer_section(found, wish) if asked else front_section(found)
    page = Page("", "topic", sheet.build.title, "", (section,))
    for line in page_text(page).split("\n"):
        click.echo(harmless(line))
    sys.exit(0 if best else 1)
