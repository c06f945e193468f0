"""`benchleaf add part` and `add parts`: parts onto one's own shelf, asked for, set, given or from a
list. What is there is never written over.
"""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from builder.cli.add_words import ask_part, choose_part, refuse, tell_added
from builder.cli.common import workspace_option
from builder.load.archive import NotTaken
from builder.model.kinds import KINDS
from builder.pipeline.sources.add_part import (
    Wish,
    add_given,
    add_part,
    begun,
    known_kind,
    with_questions,
)
from builder.pipeline.sources.shelf_entries import OWN_FILE, NotAdded
from builder.publish.swap import PublishError

_EXAMPLES = """\b
Examples:
  benchleaf add part motor hawk-1404           asks for what settles most; Enter for 'don't know'
"""
_OF_PART = """\b
Examples:
  benchleaf add part motor hawk-1404           asks for what settles most; Enter for 'don't know'
  benchleaf add part pack own-650 --set cells=4S --set capacity=650mAh --set mass=71g
  benchleaf add part --from part.yaml          a part that somebody gives
  benchleaf add part --from https://wardens.example/parts/motor-1404/part.yaml --rename
"""


@click.group(epilog=_EXAMPLES)
def add() -> None:
    """Add parts to your own shelf. What is there is never written over."""


@contextmanager
def _refusals() -> Iterator[None]:
    """Whatever keeps parts from being added is one sentence, and nothing is written."""
    try:
        yield
    except NotAdded as error:
        refuse(f"{error.message} {error.hint}", 2)
    except NotTaken as error:
        refuse(f"{error.message} {error.hint}", 1)
    except PublishError as error:
        refuse(f"{error.message} {error.hint}", 1)


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
    with _refusals():
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
