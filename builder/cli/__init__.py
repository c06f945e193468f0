"""The command line: one file a command."""

from builder.cli.main import main

__all__ = ["main"]
