"""`benchleaf preview`: serves the site while it is being written, and loads the open page again when it changes."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from threading import Event, Thread

import click

from builder.cli.common import count, known_build, print_findings, workspace_option
from builder.cli.completion import offer_builds
from builder.cli.preview_server import PreviewServer
from builder.diagnostics.finding import Severity
from builder.pipeline.preview import Preview
from builder.render.html import template_folder

_EXAMPLES = """\b
Examples:
  benchleaf preview                    the front page, at 127.0.0.1:8000
  benchleaf preview dipper             says where that build's sheet is to be seen
  benchleaf preview --port 0           at any free port
"""

_LOOK_AGAIN = 2000  # milliseconds after which folders that appeared or went are noticed


def _watched(workspace: Path) -> tuple[Path, ...]:
    return tuple(p for p in (workspace / "builds", workspace / "templates", template_folder()) if p.is_dir())


def _changes(workspace: Path, stop: Event | None) -> Iterator[None]:
    """Yields each time something was saved; ends on Ctrl-C."""
    from watchfiles import watch  # only this command needs it

    while stop is None or not stop.is_set():
        folders = _watched(workspace)
        for changes in watch(
            *folders, step=20, debounce=400, rust_timeout=_LOOK_AGAIN, yield_on_timeout=True,
            raise_interrupt=False, stop_event=stop,
        ):  # fmt: skip
            if changes:
                yield
            if _watched(workspace) != folders:
                yield
                break
        else:
            return


def _tell(preview: Preview, changed: tuple[str, ...]) -> None:
    """What was found in what was read now, as `check` says it."""
    sources = preview.sources
    print_findings(sources.model.findings, sources.loaded)
    for name in changed:
        found = preview.findings(name)
        print_findings(found, sources.loaded)
        faults = sum(f.severity == Severity.FAULT for f in found)
        remarks = sum(f.severity == Severity.REMARK for f in found)
        click.echo(f"{name}: {count(faults, 'fault')}, {count(remarks, 'remark')}")


@contextmanager
def served(preview: Preview, port: int) -> Iterator[PreviewServer]:
    """The server, running beside what is done inside."""
    server = PreviewServer(preview, port)
    thread = Thread(target=server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True)
    thread.start()
    try:
        yield server
    finally:
        server.shutdown()
        server.server_close()


def follow(preview: Preview, server: PreviewServer, stop: Event | None = None) -> None:
    """Reads again whatever is saved and says what was found, until `stop` or Ctrl-C."""
    for _ in _changes(preview.workspace, stop):
        changed = preview.refresh()
        server.changed()
        _tell(preview, changed)


@click.command(epilog=_EXAMPLES, short_help="Show the site while it is being written.")
@click.argument("build", default="", shell_complete=offer_builds)
@click.option("--port", type=click.IntRange(0, 65535), default=8000, help="0 takes any free one.  [default: 8000]")
@workspace_option
def preview(build: str, port: int, workspace: Path) -> None:
    """Show the site while it is being written; a saved file shows at once.

    Nothing is written: pages are made in memory when they are looked at, a PDF when its link is followed. Builds with
    faults are shown as drafts. What was found stands at the foot of the page. Only this machine can look. End with
    Ctrl-C.
    """
    shown = Preview(workspace)
    changed = shown.refresh()
    if build:
        known_build(build, shown.sources.model.names)
    if not shown.sources.builds and shown.sources.model.stops_all:
        print_findings(shown.sources.model.findings, shown.sources.loaded)
        sys.exit(1)
    try:
        with served(shown, port) as server:
            click.echo(f"Preview at {server.address}{build + '/' if build else ''} (Ctrl-C ends it)")
            _tell(shown, changed)
            follow(shown, server)
    except OSError as error:
        click.echo(
            f"benchleaf: port {port} cannot be used: {error.strerror or error}. Take another with --port.", err=True
        )
        sys.exit(1)
    except KeyboardInterrupt:  # between two looks
        pass
    click.echo("The preview has ended.")
