"""`benchleaf trace BUILD FIGURE`: opens a number down to what somebody weighed or a maker claimed."""

import re
import sys
from collections.abc import Iterable, Mapping
from pathlib import Path

import click
from click.shell_completion import CompletionItem

from builder import pipeline
from builder.cli.common import count, sound_build, tell_line, workspace_option
from builder.cli.completion import offer, offer_builds
from builder.compute.figures.figure import Figure
from builder.diagnostics.nearest import nearest
from builder.diagnostics.show import harmless
from builder.pages.derivations.derivation import with_spread
from builder.pages.derivations.topics import by_topic, topic_words
from builder.pages.derivations.trace import trace_text

_EXAMPLES = """\b
Examples:
  benchleaf trace dipper               lists the topics of a build's figures
  benchleaf trace dipper mass          lists the figures of one topic
  benchleaf trace dipper mass/dry      opens one of them
"""
_MOST_NEAR = 5
_PLAIN = re.compile(r"[\w./+-]+").fullmatch  # what a shell takes as one word as it is


def _list_topics(build: str, topics: Mapping[str, list[Figure]]) -> None:
    for topic, figures in topics.items():
        click.echo(harmless(f"{topic:<10}{len(figures):>5}  {topic_words(topic)}"))
    total = sum(len(figures) for figures in topics.values())
    click.echo(
        f"{count(total, 'computed figure')}. `benchleaf trace {build} TOPIC` lists those of one"
        " topic."
    )


def _list_figures(build: str, topic: str, figures: Iterable[Figure]) -> None:
    for one in figures:
        short = one.key.removeprefix(f"{build}/")
        key = (
            one.key if short == topic else short
        )  # a figure of its topic's name opens by its whole key
        click.echo(harmless(f"{key:<44} {with_spread(one):>22}  {one.label}"))


def _near(
    build: str, wanted: str, figures: Mapping[str, Figure], topics: Mapping[str, list[Figure]]
) -> str:
    """Keys that end as the wanted one does, else the one most like it, else the topics."""
    short = [key.removeprefix(f"{build}/") for key in figures]
    last = [key for key in short if f"/{key}".endswith(f"/{wanted}")]
    if last:
        more = f" and {len(last) - _MOST_NEAR} more" if len(last) > _MOST_NEAR else ""
        return f"Did you mean {', '.join(map(repr, last[:_MOST_NEAR]))}{more}?"
    own = wanted.removeprefix(f"{build}/")
    near = nearest(own, [*topics, *short]) or _by_last_step(own, short)
    return f"Did you mean {near!r}?" if near is not None else f"Its topics: {', '.join(topics)}."


def _by_last_step(wanted: str, short: list[str]) -> str | None:
    """The figure whose last step is most like the wanted one's."""
    by_last = {key.rpartition("/")[2]: key for key in reversed(short)}
    near = nearest(wanted.rpartition("/")[2], by_last)
    return by_last[near] if near is not None else None


def offer_figures(
    ctx: click.Context, param: click.Parameter, incomplete: str
) -> list[CompletionItem]:
    """The topics of a build's figures, and once something is typed its figures; nothing for a build
    that is broken.
    """
    workspace, name = Path(ctx.params.get("workspace") or "."), str(ctx.params.get("build") or "")
    build = pipeline.read(workspace)[1].builds.get(name)
    if build is None:
        return []
    made = (f for f in pipeline.judged(build).figures if f.formula is not None)
    topics = by_topic(name, made)
    offered = [offer(t, topic_words(t)) for t in topics if t.startswith(incomplete)]
    if incomplete:
        short = (
            (f.key.removeprefix(f"{name}/"), f.label)
            for figures in topics.values()
            for f in figures
        )
        offered += [offer(k, words) for k, words in short if k.startswith(incomplete) and _PLAIN(k)]
    return offered


@click.command(epilog=_EXAMPLES)
@click.argument("build", shell_complete=offer_builds)
@click.argument("figure", default="", metavar="[FIGURE | TOPIC]", shell_complete=offer_figures)
@workspace_option
def trace(build: str, figure: str, workspace: Path) -> None:
    """Show how a FIGURE of a BUILD was made. With a TOPIC: list its figures. With neither: list the
    topics.
    """
    loaded, model = pipeline.read(workspace)
    sheet = pipeline.judged(sound_build(build, model, loaded))
    figures = {f.key: f for f in sheet.figures}
    topics = by_topic(build, (f for f in figures.values() if f.formula is not None))
    topic = figure.strip("/").removeprefix(f"{build}/")
    found = figures.get(figure) or (
        figures.get(f"{build}/{figure}") if figure not in topics else None
    )
    if not figure:
        _list_topics(build, topics)
    elif found is not None:
        click.echo(trace_text(found))
    elif topic in topics:
        _list_figures(build, topic, topics[topic])
    else:
        said = (
            f"benchleaf: {build} has no figure {figure!r}. {_near(build, figure, figures, topics)}"
        )
        tell_line(harmless(said), err=True)
        sys.exit(2)
