"""`benchleaf explain CODE`: what a rule or a mistake is about and how to fix it."""

import sys

import click
from click.shell_completion import CompletionItem

from builder.cli.completion import offer
from builder.diagnostics.nearest import did_you_mean
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
    fit = [c for c in known if c[0].startswith(incomplete)] or [
        c for c in known if c[0].partition("/")[2].startswith(incomplete)
    ]
    return [offer(code, title) for code, title in fit]


@click.command(epilog=_EXAMPLES)
@click.argument("code", default="", shell_complete=offer_codes)
def explain(code: str) -> None:
    """Explain a CODE that a finding carries. Without CODE: list all."""
    if not code:
        for known, title in codes():
            click.echo(f"{known:<36} {title}")
        return
    text = explanation(code)
    if text is None:
        click.echo(
            f"benchleaf: there is no code {code!r}. {did_you_mean(code, [c for c, _ in codes()])}",
            err=True,
        )
        sys.exit(2)
    click.echo(text)
