"""What a terminal or a pipe can show, whatever the code page of the console."""

import os
import sys
from typing import TextIO


def plain_terminal() -> bool:
    """Whether nobody wants colours or a line that is written over: NO_COLOR is set and not empty,
    or the terminal is dumb.
    """
    return bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM") == "dumb"


def speak_plainly() -> None:
    """Text goes out as UTF-8 where the console knows it; what it cannot show is replaced, so that
    no message ends in an error.
    """
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace" if _is_narrow(stream) else "backslashreplace")


def _is_narrow(stream: TextIO) -> bool:
    """Whether it shows less than all of Unicode."""
    encoding = (stream.encoding or "ascii").replace("-", "").replace("_", "").casefold()
    return not encoding.startswith("utf")


def end_quietly() -> None:
    """Nobody reads on: what is still to be written goes nowhere, without a word."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
