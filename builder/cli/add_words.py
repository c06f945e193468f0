"""What `benchleaf add` asks and says in the terminal."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from typing import NoReturn, cast

import click

from builder.cli.common import count, print_findings, tell_line
from builder.diagnostics.show import harmless
from builder.load.archive import NotTaken
from builder.pipeline.begin.start_from import PartClash, WhichPart
from builder.pipeline.sources.add_list import ListPlan
from builder.pipeline.sources.asking import Asked, Asking
from builder.pipeline.sources.shelf_entries import Added, NotAdded
from builder.publish.swap import PublishError

_WHICH = click.Choice(("theirs", "ours", "rename"))
_NAMED = 3
_HOW = "Enter: not known. A question mark: what it is. A full stop: that is all."


def refuse(text: str, status: int) -> NoReturn:
    """Says in a sentence why nothing was done."""
    click.echo(harmless(f"benchleaf: {text}"), err=True)
    sys.exit(status)


@contextmanager
def refusals() -> Iterator[None]:
    """Whatever keeps something from being written is one sentence, and nothing is written."""
    try:
        yield
    except NotAdded as error:
        refuse(f"{error.message} {error.hint}".strip(), 2)
    except (NotTaken, PublishError) as error:
        refuse(f"{error.message} {error.hint}", 1)


def tell_added(added: Added) -> None:
    """What was written, or the mistakes that kept it from being written."""
    if added.mistakes:
        print_findings(added.mistakes, added.loaded)
        refuse("nothing was written; fix these first.", 1)
    several = len(added.names) > _NAMED
    if several:
        click.echo(harmless(f"wrote {count(len(added.names), 'part')} into builds/{added.file}"))
    for name in () if several else added.names:
        click.echo(harmless(f"wrote {name} into builds/{added.file}"))
    if not added.names:
        click.echo("Nothing to write: it is on your shelf already, as it was given.")


def choose_part(choice: str | None) -> Callable[[PartClash], WhichPart | None]:
    """Asks which of two parts is meant, after it has shown both."""
    return partial(_choose, choice)


def _choose(choice: str | None, clash: PartClash) -> WhichPart | None:
    for line in clash.side_by_side().split("\n"):
        click.echo(harmless(line), err=True)
    if choice is None and sys.stdin.isatty():
        choice = click.prompt("Which one?", type=_WHICH, default="rename", err=True)
    return cast(WhichPart | None, choice)


def ask_part(asking: Asking) -> Asking:
    """Asks until nothing more would be settled, or nobody answers any more."""
    tell_line(_HOW)
    while (asked := asking.following()) is not None:
        if not _ask(asking, asked):
            break
    return asking


def _ask(asking: Asking, asked: Asked) -> bool:
    """Asks for one fact; whether to go on."""
    like = f", like {asked.like}" if asked.like else ""
    words = asked.words[:1].upper() + asked.words[1:]
    question = harmless(f"{words} ({asked.key}{like}; {asked.settles.words})")
    while True:
        try:
            text = click.prompt(question, default="", show_default=False).strip()
        except click.Abort as error:
            if isinstance(error.__context__, KeyboardInterrupt):
                raise KeyboardInterrupt from error
            text = "."  # nobody answers any more: what was said counts
        if text == ".":
            asking.does_not_know(asked)
            return False
        if not text or text.casefold() in ("don't know", "?"):
            if text == "?":
                tell_line(harmless(f"  {asked.key}: {asked.words}. {asked.settles.words}."))
                continue
            asking.does_not_know(asked)
            return True
        wrong = asking.answer(asked.path, text)
        if wrong is None:
            return True
        tell_line(harmless(f"  {wrong.message} {wrong.hint}"))


def tell_plan(plan: ListPlan) -> None:
    """What a list would write, row by row, and what of it is not understood."""
    for part in plan.parts:
        price = part.tree.get("price", {}).get("each", "")
        said = (f"{part.count} x", part.tree["kind"], part.name, part.tree.get("mass", ""), price)
        tell_line(harmless(f"  row {part.row}: {'  '.join(str(x) for x in said if x)}"))
    for wrong in plan.wrong:
        tell_line(harmless(f"  row {wrong.row}, {wrong.heading}: {wrong.why}"), err=True)
    if plan.unread:
        tell_line(harmless(f"  columns passed over: {', '.join(plan.unread)}"))
