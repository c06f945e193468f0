"""`benchleaf explain CODE`: what a rule or a mistake is about and how to mend it."""

import sys

import click

from builder.diagnostics.nearest import did_you_mean
from builder.rules.reference import codes, explanation

_EXAMPLES = """\b
Examples:
  benchleaf explain                    lists every code
  benchleaf explain wiring/tx-to-tx
"""


@click.command(epilog=_EXAMPLES)
@click.argument("code", default="")
def explain(code: str) -> None:
    """Explain a CODE that a finding carries. Without CODE: list all."""
    if not code:
        for known, title in codes():
            click.echo(f"{known:<36} {title}")
        return
    text = explanation(code)
    if text is None:
        click.echo(f"benchleaf: there is no code {code!r}. {did_you_mean(code, [c for c, _ in codes()])}", err=True)
        sys.exit(2)
    click.echo(text)
