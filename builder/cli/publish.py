"""`benchleaf publish`: the main job."""

import sys
import time
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.cli.common import count, print_texts, tell_line, workspace_option
from builder.cli.progress import Bars
from builder.diagnostics.finding import Finding, Severity
from builder.diagnostics.show import as_text, harmless
from builder.diagnostics.told_once import told_once
from builder.diagnostics.where import Sources
from builder.options import PublishOptions
from builder.publish.kept.unchanged import Said, look, nothing_new, remember
from builder.publish.swap import PublishError
from builder.publish.workers.garbage import collect_seldom
from builder.system.terminal import plain_terminal

if TYPE_CHECKING:
    from builder.pipeline.published import Published

_EXAMPLES = """\b
Examples:
  benchleaf publish                    everything, into site/
  benchleaf publish --no-pdf           pages only, in a second or two
  benchleaf publish --draft            builds with faults too, marked on every page
"""


_CLUSTER = (
    "Do the work on the Dask cluster at this address; only on machines and a network that you"
    " trust."
)


def _with_bar(options: PublishOptions) -> "Published":
    """Publishes, with a bar on standard error where that is a terminal."""
    from builder.pipeline import publish as pipeline  # imports all that makes pages

    collect_seldom()
    if not sys.stderr.isatty() or plain_terminal():
        return pipeline.publish_site(options)
    with Bars() as bars:
        return pipeline.publish_site(options, bars.tell)


_UNPRINTED = (
    "benchleaf: bench sheets were not printed, so no page leads to them. Publish without --no-pdf"
    " to print them."
)


def _errors(done: "Published") -> list[str]:
    """What went wrong inside, each error once with all that it kept from being made."""
    jobs: dict[str, list[str]] = {}
    for name, _, error in (e.partition(": ") for e in done.errors):
        jobs.setdefault(error, []).append(name)
    return [harmless(f"{', '.join(names)}: {error}") for error, names in jobs.items()]


def _text(finding: Finding, sources: Sources) -> str:
    """The whole of what was found; of a remark only where, for publish counts them."""
    if finding.severity != Severity.REMARK:
        return as_text(finding, sources)
    return finding.build


def _remarks(said: Said) -> None:
    """One line for each build that has remarks; `check` says them whole."""
    counts = Counter(text for severity, text in said.findings if severity == Severity.REMARK)
    for build, number in counts.items():
        name, words = harmless(build), count(number, "remark")
        if build:
            tell_line(f"{name}: {words}, worth knowing; `benchleaf check {name}` shows them")
        else:
            tell_line(f"shelf and site.yaml: {words}, worth knowing; `benchleaf check` shows them")


def said_of(done: "Published") -> Said:
    """What a publish has to say: findings, what was kept and left out, and its exit status."""
    texts = tuple((f.severity.value, _text(f, done.loaded)) for f in told_once(done.findings))
    notes = [
        f"benchleaf: an error inside Benchleaf while making {e}. Please report it."
        for e in _errors(done)
    ]
    notes += [
        f"{harmless(name)}: not published now; its last published pages are kept"
        for name in done.kept
    ]
    notes += [f"{harmless(name)}: not published" for name in done.left_out]
    notes += [_UNPRINTED] if done.unprinted else []
    notes += [f"benchleaf: {sentence}" for sentence in done.not_made]
    mistakes = any(f.severity == Severity.MISTAKE for f in done.findings)
    status = 1 if mistakes or done.kept or done.left_out or done.errors or done.not_made else 0
    return Said(texts, tuple(notes), len(done.published), done.files, status, done.remarks_before)


def report(said: Said, written: int, removed: int, seconds: float, workspace: Path) -> None:
    """What was published, kept and left out, in plain lines: what stops it first, at the end the
    summary and the file to open.
    """
    print_texts(f for f in said.findings if f[0] != Severity.REMARK)
    for note in said.notes:
        tell_line(note, err=True)
    _remarks(said)
    if said.remarks:
        tell_line(
            f"{count(said.remarks, 'remark')} on builds that are as they were; `benchleaf check`"
            " shows them"
        )
    files = count(said.files, "file")
    changed = f"({written} written, {removed} removed) in {seconds:.1f} s"
    tell_line(f"{count(said.builds, 'build')} published, {files} in site/ {changed}")
    front = workspace / "site" / "index.html"
    if front.is_file():
        click.echo(harmless(f"Open {front}"))


@click.command(epilog=_EXAMPLES)
@click.option(
    "--draft", is_flag=True, help="Publish builds with faults too, with a mark on every page."
)
@click.option(
    "--pdf/--no-pdf",
    default=True,
    help=(
        "Make the bench sheets to print as well; without, those that are still right stay. "
        " [default: pdf]"
    ),
)
@click.option(
    "--workers", type=click.IntRange(0, 64), default=0, help="Worker processes; 0 takes one a core."
)
@click.option("--cluster", default="", metavar="ADDRESS", help=_CLUSTER)
@click.option(
    "--base",
    default="",
    help="Sub-folder of the address under which the site will be, like /sheets.",
)
@click.option("--careful", is_flag=True, help="Read every published file again to find hand edits.")
@click.option("--everything", is_flag=True, help="Make every page again.")
@workspace_option
def publish(
    draft: bool,
    pdf: bool,
    workers: int,
    cluster: str,
    base: str,
    careful: bool,
    everything: bool,
    workspace: Path,
) -> None:
    """Publish all builds into site/."""
    options = PublishOptions(workspace, draft, pdf, workers, base, careful, everything, cluster)
    start = time.perf_counter()
    before = look(options)
    same = nothing_new(options, before)
    if same is not None:
        report(same, 0, 0, time.perf_counter() - start, workspace)
        sys.exit(same.status)
    try:
        done = _with_bar(options)
    except PublishError as error:
        for line in (f"benchleaf: {error.message}", f"  {error.hint}" if error.hint else ""):
            if line:
                click.echo(harmless(line), err=True)
        sys.exit(1)
    said = said_of(done)
    if not done.unsettled:
        remember(options, before, said)
    for sentence in done.remarks:  # of this run only
        tell_line(f"benchleaf: {sentence}", err=True)
    report(said, done.written, done.removed, time.perf_counter() - start, workspace)
    sys.exit(said.status)
