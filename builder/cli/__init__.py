"""The command line: one file a command."""

# The part of `signal` that is there from the start: importing the other takes a while.
import _signal  # type: ignore[import-not-found]  # typed under its other name only

# An interrupt from the keyboard while all this is still read in ends it at once and in silence.
_ours = _signal.getsignal(_signal.SIGINT) is _signal.default_int_handler
if _ours:
    try:
        _signal.signal(_signal.SIGINT, _signal.SIG_DFL)
    except ValueError:  # not in the main thread, which alone is interrupted
        _ours = False

from builder.cli.main import main  # noqa: E402 - after the signal is seen to

if _ours:
    _signal.signal(_signal.SIGINT, _signal.default_int_handler)

__all__ = ["main"]
