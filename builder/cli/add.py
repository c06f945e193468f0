"""`benchleaf add part` and `add parts`: parts onto one's own shelf, asked for, set, given or from a
list. What is there is never written over.
"""

import re
import sys
from collections.abc import Callable
from pathlib import Path

import click

from builder.cli.add_words import ask_part, choose_part, refusals, refuse, tell_added, tell_plan
from builder.cli.common import count, workspace_option
from builder.model.kinds import KINDS
from builder.pipeline.sources.add_list import ListOptions, add_listed, plan_list, read_list
from builder.pipeline.sources.add_part import (
    Wish,
    add_given,
    add_part,
    begun,
    known_kind,
    with_questions,
)
from builder.pipeline.sources.list_rows import MOST_BYTES
from builder.pipeline.sources.shelf_entries import OWN_FILE, own_shelf

_EXAMPLES = """\b
Examples:
  benchleaf add part motor sluice-1404           asks for what settles most; Enter for 'don't know'
  benchleaf add parts list.csv                 a whole list, CSV or TSV: shows what it would write
"""
_OF_PARTS = """\b
Examples:
  benchleaf add parts list.csv                 shows what it would write, and asks
  benchleaf add parts list.tsv --yes --build weir    writes it, and a first build of it
  benchleaf add parts - --decimals comma --currency USD --unit g --column name=Artikel
"""
_SAID = re.compile(r"([a-z]+)=(.+)")
_OF_PART = """\b
Examples:
  benchleaf add part motor sluice-1404           asks for what settles most; Enter for 'don't know'
  benchleaf add part pack own-650 --set cells=4S --set capacity=650mAh --set mass=71g
  benchleaf add part --from part.yaml          a part that somebody gives
  benchleaf add part --from https://wardens.example/parts/motor-1404/part.yaml --rename
"""


@click.group(epilog=_EXAMPLES)
def add() -> None:
    """Add parts to your own shelf. What is there is never written over."""


def file_option(command: Callable[..., None]) -> Callable[..., None]:
    """`--file NAME`: the file of the shelf that entries go into."""
    return click.option(
        "--file",
        "file",
        default=Path(OWN_FILE).name,
        show_default=True,
        metavar="NAME",
        help="The file in builds/shelf/ to which it is added.",
    )(command)


@add.command(epilog=_OF_PART)
@click.argument("kind", default="", metavar="[KIND]")
@click.argument("name", default="", metavar="[NAME]")
@click.option(
    "--set",
    "sets",
    multiple=True,
    metavar="FIELD=VALUE",
    help="A field of it, as in --set mass=9.3g or --set supply.accepts=5V; asks nothing.",
)
@click.option(
    "--from",
    "source",
    default="",
    metavar="FILE|ADDRESS",
    help="A part that somebody gives: its part.yaml, or the address of that.",
)
@click.option("--ask", is_flag=True, help="Ask although there is no terminal: a line an answer.")
@click.option("--theirs", "choice", flag_value="theirs", help="Of two parts that differ: theirs.")
@click.option("--ours", "choice", flag_value="ours", help="Of two parts that differ: yours.")
@click.option(
    "--rename", "choice", flag_value="rename", help="Keep yours, and theirs under another name."
)
@file_option
@workspace_option
def part(
    kind: str,
    name: str,
    sets: tuple[str, ...],
    source: str,
    ask: bool,
    choice: str | None,
    file: str,
    workspace: Path,
) -> None:
    """Add one part of a KIND under a NAME of your own, which becomes its address.

    It asks only what lets something be checked or worked out, the most first. Enter means: not
    known.
    """
    with refusals():
        if source:
            made = add_given(workspace, source, name, f"shelf/{file}", choose_part(choice))
            tell_added(made)
            return
        if not kind or not name:
            kinds = ", ".join(KINDS)
            raise click.UsageError(f"Say a kind and a name: KIND is one of {kinds}.")
        wish = Wish(known_kind(kind), name, sets, f"shelf/{file}")
        beginning = begun(workspace, wish)
        asking = (
            ask_part(with_questions(beginning))
            if ask or (sys.stdin.isatty() and not sets)
            else None
        )
        tell_added(add_part(workspace, wish, beginning, asking))


@add.command(epilog=_OF_PARTS)
@click.argument("listing", metavar="LIST")
@click.option(
    "--column",
    "columns",
    multiple=True,
    metavar="FIELD=HEADING",
    help="Which column a field is, by its heading or number, where its heading does not say it.",
)
@click.option("--currency", default="", metavar="CODE", help="Of prices without one, as USD.")
@click.option("--unit", default="", metavar="UNIT", help="Of weights without one, as g.")
@click.option(
    "--decimals",
    type=click.Choice(("comma", "point")),
    default=None,
    help="What parts decimals, where a number could be read two ways.",
)
@click.option(
    "--build", default="", metavar="NAME", help="Begin a build of these parts as well, planned."
)
@click.option("--yes", is_flag=True, help="Write it without asking.")
@click.option("--leave-out", is_flag=True, help="Write the rows that are understood, not the rest.")
@file_option
@workspace_option
def parts(
    listing: str,
    columns: tuple[str, ...],
    currency: str,
    unit: str,
    decimals: str | None,
    build: str,
    yes: bool,
    leave_out: bool,
    file: str,
    workspace: Path,
) -> None:
    """Add the parts of a LIST: a CSV or TSV file, or - for standard input.

    It shows what it would write and what it does not understand, and writes all or nothing.
    """
    with refusals():
        content = sys.stdin.buffer.read(MOST_BYTES + 1) if listing == "-" else read_list(listing)
        options = ListOptions(_said_columns(columns), currency, unit, decimals or "")
        there = own_shelf(workspace)
        plan = plan_list(content, there, options)
        tell_plan(plan)
        if plan.wrong and not leave_out:
            n = count(len(plan.wrong), "cell is", "cells are")
            hint = "Correct the list, or leave those rows out with --leave-out."
            refuse(f"{n} not understood; nothing was written. {hint}", 1)
        if not plan.parts:
            refuse("no row is left to write.", 1)
        may_ask = sys.stdin.isatty() and listing != "-"
        if not yes and not (may_ask and click.confirm("Write it?", err=True)):
            click.echo("Nothing was written. With --yes it is.")
            return
        tell_added(add_listed(workspace, there, plan, f"shelf/{file}", build))


def _said_columns(said: tuple[str, ...]) -> dict[str, str]:
    found = [(text, _SAID.fullmatch(text)) for text in said]
    wrong = next((text for text, match in found if match is None), None)
    if wrong is not None:
        raise click.UsageError(f"{wrong[:60]!r} does not say a field and a heading.")
    return {match[1]: match[2] for _, match in found if match is not None}
