"""The `benchleaf` command. Knows options and exit status; the pipeline does the work.

Exit status: 0 done, 1 findings that stop it, 2 wrong use.
"""

import os
import signal
import sys
import traceback
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from threading import Timer
from types import FrameType
from typing import NoReturn

import click

from builder import __version__
from builder.diagnostics.nearest import nearest
from builder.diagnostics.show import harmless
from builder.publish.workers.garbage import collect_seldom
from builder.system.terminal import end_quietly, plain_terminal, speak_plainly

_REPORT = """benchleaf: an error inside Benchleaf, not in your files. Nothing that was published is lost.
Please report these lines:
  {kind}: {error}
  at {where}, benchleaf {version}, python {python}
Set BENCHLEAF_TRACEBACK=1 to see the whole trace."""

# Formulas, rules and fields are described by their docstrings, which Python drops from the second
# level on.
_NO_DOCSTRINGS = (
    "benchleaf: Python was started without docstrings, which Benchleaf reads; unset PYTHONOPTIMIZE,"
    " and leave out -OO."
)


_EXAMPLES = """\b
Examples:
  benchleaf start my-build && benchleaf publish
  benchleaf check
  benchleaf COMMAND --help             says more and gives examples
"""


# What each command does, as `benchleaf --help` and the shell say it; a command's own short help is
# this one.
SHORT_HELP = {
    "add": "Add a part, or a list of parts, to your shelf.",
    "check": "Read and check builds.",
    "choose": "Find the swaps of shelf parts that bring a BUILD where you want it.",
    "compare": "Show what the SECOND build has that the FIRST has not.",
    "completion": "Print what a shell needs to complete commands.",
    "explain": "Explain a CODE that a finding carries.",
    "note": "Put what was read at the bench into a BUILD.",
    "preview": "Show the site while it is being written.",
    "publish": "Publish all builds into site/.",
    "report": "Write what you found when you built a BUILD, or take that in.",
    "schema": "Print the JSON Schema of a source file.",
    "start": "Begin a build, from a size or like another one.",
    "trace": "Show how a FIGURE of a BUILD was made.",
}
_BY_INTERRUPT = 130  # the exit status that shells give to a program that Ctrl-C has ended
_END_WITHIN = 5  # s


class _Interrupted(BaseException):
    """Somebody pressed Ctrl-C."""


class Commands(click.Group):
    """Commands by name, each imported when it is asked for: a command waits for nobody else's
    libraries.
    """

    def list_commands(self, ctx: click.Context) -> list[str]:
        """All names, as help lists them."""
        return list(SHORT_HELP)

    def invoke(self, ctx: click.Context) -> object:
        """Runs a command; an interrupt from the keyboard goes to `main`, past click's own word for
        it.
        """
        try:
            return super().invoke(ctx)
        except KeyboardInterrupt as error:
            raise _Interrupted from error

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """The command that is meant; where there is none, the one with the nearest name is told."""
        near = nearest(args[0], SHORT_HELP) if args[0] not in SHORT_HELP else None
        if near is not None and not args[0].startswith("-"):
            ctx.fail(f"No such command {args[0]!r}. Did you mean {near!r}?")
        return super().resolve_command(ctx, args)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command in the file of that name."""
        if cmd_name not in SHORT_HELP:
            return None
        found: click.Command = getattr(import_module(f"builder.cli.{cmd_name}"), cmd_name)
        return found

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands from the words here, so that help imports none of them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(SHORT_HELP.items()))


@click.group(
    cls=Commands,
    epilog=_EXAMPLES,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="benchleaf")
@click.pass_context
def cli(ctx: click.Context) -> None:
    """Publish build sheets of small multirotors.

    One YAML file for a build, plus a shelf of parts, becomes a page, a bench sheet to print, and
    comparisons.
    Exit status: 0 done, 1 findings that stop it, 2 wrong use.
    """
    if plain_terminal():
        ctx.color = False


def _end_interrupted() -> NoReturn:
    """One sentence, and the end, which nothing interrupts and which waits for no thread."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    latest = Timer(_END_WITHIN, os._exit, (_BY_INTERRUPT,))
    latest.daemon = True
    latest.start()
    with suppress(OSError, ValueError):
        sys.stdout.flush()
        sys.stderr.write("benchleaf: interrupted. What was published before is as it was.\n")
        sys.stderr.flush()
    sys.exit(_BY_INTERRUPT)


def main() -> None:
    """Entry point. No input ends in a traceback: an internal error prints what to report."""
    if sys.flags.optimize > 1:
        click.echo(_NO_DOCSTRINGS, err=True)
        sys.exit(2)
    collect_seldom()
    speak_plainly()
    pressed: list[int] = []

    def interrupt(number: int, frame: FrameType | None) -> None:
        pressed.append(number)
        raise KeyboardInterrupt

    try:
        if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
            signal.signal(signal.SIGINT, interrupt)
        cli()
    except (KeyboardInterrupt, _Interrupted):
        _end_interrupted()
    except BrokenPipeError:
        end_quietly()
        sys.exit(1)
    except Exception as error:
        if pressed:  # some libraries make an error of their own of it
            _end_interrupted()
        if os.environ.get("BENCHLEAF_TRACEBACK"):
            raise
        frame = traceback.extract_tb(error.__traceback__)[-1]
        file = Path(frame.filename)
        where = f"{file.parent.name}/{file.name}:{frame.lineno}"
        text = _REPORT.format(
            kind=type(error).__name__,
            error=error,
            where=where,
            version=__version__,
            python=sys.version.split()[0],
        )
        click.echo("\n".join(map(harmless, text.split("\n"))), err=True)
        sys.exit(1)
