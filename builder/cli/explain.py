"""`benchleaf explain CODE`: what a rule or a mistake is about and how to fix it."""

import sys

import click
from click.shell_completion import CompletionItem

from builder.cli.common import columns_of, tell_line
from builder.cli.completion import offer
from builder.diagnostics.fit_width import wrapped
from builder.diagnostics.nearest import nearest
from builder.diagnostics.show import harmless
from builder.rules.reference import codes, explanation

_EXAMPLES = """\b
Examples:
  benchleaf explain                    lists every code
  benchleaf explain wiring/tx-to-tx
"""


def offer_codes(
    ctx: click.Context, param: click.Parameter, incomplete: str
) -> list[CompletionItem]:
    """The codes of rules and mistakes that begin so, or whose name behind the family does."""
    known = codes()
    whole = [c for c in known if c[0].startswith(incomplete)]
    without_family = [c for c in known if c[0].partition("/")[2].startswith(incomplete)]
    fit = whole or without_family
    return [offer(code, title) for code, title in fit]


def _near(code: str) -> str:
    """The code most like it, by the whole or by its name behind the family."""
    known = [c for c, _ in codes()]
    whole = nearest(code, known)
    by_name = {c.partition("/")[2]: c for c in known}
    name = nearest(code.rpartition("/")[2], by_name) if whole is None else None
    near = whole if name is None else by_name[name]
    return f"Did you mean {near!r}?" if near is not None else "`benchleaf explain` lists all."


@click.command(epilog=_EXAMPLES)
@click.argument("code", default="", shell_complete=offer_codes)
def explain(code: str) -> None:
    """Explain a CODE that a finding carries. Without CODE: list all."""
    if not code:
        for known, title in codes():
            click.echo(wrapped(f"{known:<36} {title}", columns_of(sys.stdout), 37))
        return
    text = explanation(code)
    if text is None:
        tell_line(harmless(f"benchleaf: there is no code {code!r}. {_near(code)}"), err=True)
        sys.exit(2)
    width = columns_of(sys.stdout)
    for line in text.split("\n"):
        click.echo(wrapped(line, width, 11))
