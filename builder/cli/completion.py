"""Shell completion: commands and options by click itself, builds from the workspace."""

import sys
from pathlib import Path

import click
from click.shell_completion import CompletionItem, get_completion_class

from builder.load.files import build_names
from builder.model.values.names import BUILD, name_mistake

_SHELLS = ("bash", "zsh", "fish")
_EXAMPLES = """\b
Examples:
  eval "$(benchleaf completion bash)"         in ~/.bashrc
  eval "$(benchleaf completion zsh)"          in ~/.zshrc
  benchleaf completion fish | source          in ~/.config/fish/config.fish
"""


def offer(value: str, words: str) -> CompletionItem:
    """A word with what it is; one shell takes a comma for the end of that, another a line end."""
    return CompletionItem(value, help=" ".join(words.replace(",", ";").split()))


def offer_builds(
    ctx: click.Context, param: click.Parameter, incomplete: str
) -> list[CompletionItem]:
    """The builds of the workspace whose names begin so; a shell is given no odd name of a
    stranger's folder.
    """
    workspace = Path(ctx.params.get("workspace") or ".")
    return [
        CompletionItem(name)
        for name in build_names(workspace)
        if name.startswith(incomplete) and name_mistake(name, BUILD) is None
    ]


@click.command(epilog=_EXAMPLES)
@click.argument("shell", type=click.Choice(_SHELLS))
@click.pass_context
def completion(ctx: click.Context, shell: str) -> None:
    """Print what a SHELL needs to complete commands, options, builds, figures and codes."""
    found = get_completion_class(shell)
    if found is None:
        click.echo(f"benchleaf: this click completes nothing in {shell}.", err=True)
        sys.exit(1)
    click.echo(found(ctx.find_root().command, {}, "benchleaf", "_BENCHLEAF_COMPLETE").source())
