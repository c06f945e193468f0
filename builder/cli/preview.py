"""`benchleaf preview`: serves the site while it is being written, and loads the open page again
when it changes.
"""

import os
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Thread

import click

from builder.cli.common import known_build, print_findings, workspace_option
from builder.cli.completion import offer_builds
from builder.cli.preview_server import PreviewServer
from builder.cli.preview_words import Terminal
from builder.pipeline.preview.preview import Preview
from builder.render.html.page import template_folder

_EXAMPLES = """\b
Examples:
  benchleaf preview                    the front page, at 127.0.0.1:8000
  benchleaf preview dipper             says where that build's sheet is to be seen
  benchleaf preview --port 0           at any free port
"""

# milliseconds after which it is looked at by itself whether a save was missed, or a folder came
_LOOK_AGAIN = 1000


def _watched(workspace: Path) -> tuple[Path, ...]:
    return tuple(
        p for p in (workspace / "builds", workspace / "templates", template_folder()) if p.is_dir()
    )


def _stamp(folders: tuple[Path, ...]) -> tuple[object, ...]:
    """Names, sizes and times of all that is watched: another one after a save that the system did
    not tell of.
    """
    found = []
    for folder in folders:
        for root, _, names in os.walk(folder):
            for path in (Path(root) / name for name in names):
                try:
                    about = path.stat()
                except OSError:  # gone meanwhile
                    continue
                found.append((str(path), about.st_mtime_ns, about.st_size))
    return (folders, *sorted(found))


def _looks(folders: tuple[Path, ...]) -> Iterator[None]:
    """Yields when it is worth looking: at once after a save where the system tells of it, each
    second in any case.
    """
    from watchfiles import watch  # only this command needs it

    try:
        for _ in watch(
            *folders, step=20, debounce=400, rust_timeout=_LOOK_AGAIN, yield_on_timeout=True
        ):
            yield
    except OSError:  # the system tells of no more files
        while True:
            time.sleep(_LOOK_AGAIN / 1000)
            yield


def _changes(workspace: Path, known: tuple[object, ...]) -> Iterator[None]:
    """Yields each time something is not as it was known."""
    while True:
        folders = _watched(workspace)
        for _ in _looks(folders):
            now = _stamp(_watched(workspace))
            if now != known:
                known = now
                yield
            if now[0] != folders:
                break  # watch those that are there now


@contextmanager
def running(server: PreviewServer) -> Iterator[PreviewServer]:
    """The server, at work beside what is done inside."""
    Thread(target=server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True).start()
    try:
        yield server
    finally:
        server.shutdown()
        server.server_close()
        server.preview.close()


@click.command(epilog=_EXAMPLES)
@click.argument("build", default="", shell_complete=offer_builds)
@click.option(
    "--port",
    type=click.IntRange(0, 65535),
    default=8000,
    help="0 takes any free one.  [default: 8000]",
)
@workspace_option
def preview(build: str, port: int, workspace: Path) -> None:
    """Show the site while it is being written; a saved file shows at once.

    Nothing is written: pages are made in memory when they are looked at, a PDF when its link is
    followed. Builds with faults are shown as drafts. What was found stands at the foot of the page.
    Only this machine can look. End with Ctrl-C.
    """
    shown, known = Preview(workspace), _stamp(_watched(workspace))
    changed = shown.refresh()
    if build:
        known_build(build, shown.sources.model.names)
    if not shown.sources.builds and shown.sources.model.stops_all:
        print_findings(shown.sources.model.findings, shown.sources.loaded)
        sys.exit(1)
    try:
        server = PreviewServer(shown, port)
    except OSError as error:
        why = error.strerror or type(error).__name__
        click.echo(
            f"benchleaf: port {port} cannot be used: {why}. Take another with --port.", err=True
        )
        sys.exit(1)
    try:
        with running(server):
            click.echo(
                f"Preview at {server.address}{build + '/' if build else ''} (Ctrl-C ends it)"
            )
            terminal = Terminal(shown)
            Thread(
                target=terminal.tell, args=(changed,), daemon=True
            ).start()  # what is saved meanwhile is not missed
            for _ in _changes(workspace, known):
                changed = shown.refresh()
                server.changed()
                terminal.tell(changed)
    except KeyboardInterrupt:
        pass
    click.echo("The preview has ended.")
    sys.stdout.flush()
    os._exit(0)  # a thread that tells what it found has nothing to tell any more
