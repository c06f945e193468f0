"""What commands share: the workspace option, and printing findings."""

import os
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

import click

from builder.diagnostics.finding import Finding, Severity
from builder.diagnostics.fit_width import fitted, wrapped
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.show import as_text, harmless
from builder.diagnostics.told_once import told_once
from builder.diagnostics.where import Sources
from builder.rounding import counted

if TYPE_CHECKING:  # help is said without the model
    from builder.model.build import Build
    from builder.model.read.workspace import Workspace

_COLOURS = {Severity.MISTAKE: "red", Severity.FAULT: "red"}  # a remark is no error
_FIRST = tuple(s.value for s in (Severity.MISTAKE, Severity.FAULT, Severity.REMARK))


def columns_of(stream: TextIO) -> int | None:
    """Columns of the terminal behind a stream, or COLUMNS where that is set; None for a file or a
    pipe, where a line stays whole.
    """
    told = os.environ.get("COLUMNS", "")
    if told.isascii() and told.isdigit() and int(told):
        return int(told)
    try:
        return os.get_terminal_size(stream.fileno()).columns or None
    except (OSError, ValueError):
        return None


def tell_line(line: str, *, err: bool = False) -> None:
    """One line, wrapped where the terminal is narrower."""
    click.echo(wrapped(line, columns_of(sys.stderr if err else sys.stdout)), err=err)


def workspace_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """`--workspace DIR`: the folder that holds `builds/`; here, unless it is said."""
    return click.option(
        "--workspace",
        type=click.Path(file_okay=False, path_type=Path),
        default=Path(),
        show_default="here",
        help="The folder that holds builds/.",
    )(command)


def print_findings(findings: Iterable[Finding], sources: Sources) -> None:
    """Each finding over a few lines on standard error, faults first; coloured on a terminal only."""
    print_texts((f.severity.value, as_text(f, sources)) for f in told_once(findings))


def print_texts(findings: Iterable[tuple[str, str]]) -> None:
    """Findings given as severity and text; what a variant inherits is said once."""
    lines = []
    width = columns_of(sys.stderr)
    for severity, text in sorted(dict.fromkeys(findings), key=lambda f: _FIRST.index(f[0])):
        head, line_end, rest = fitted(text, width).partition("\n")
        lines.append(click.style(head, fg=_COLOURS.get(Severity(severity))) + line_end + rest)
    if lines:
        click.echo("\n".join(lines), err=True)


def count(number: int, one: str, many: str = "") -> str:
    """`1 fault`, `2 faults`."""
    return counted(number, one, many)


def known_build(name: str, names: Iterable[str]) -> None:
    """Stops with exit status 2 where a build does not exist."""
    known = tuple(names)
    if name not in known:
        click.echo(
            harmless(f"benchleaf: there is no build {name!r}. {did_you_mean(name, known)}"),
            err=True,
        )
        sys.exit(2)


def sound_build(name: str, model: "Workspace", sources: Sources) -> "Build":
    """A build by its name. Stops with exit status 2 where there is none, and with its mistakes and 1
    where it cannot be read.
    """
    known_build(name, model.names)
    if name not in model.builds:
        print_findings(model.mistakes_of(name), sources)
        sys.exit(1)
    return model.builds[name]
