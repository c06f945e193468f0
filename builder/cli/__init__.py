"""The command line: one file a command."""

import signal
import threading

# An interrupt from the keyboard while all this is still read in ends it at once and in silence.
_before = signal.getsignal(signal.SIGINT)
_ours = threading.current_thread() is threading.main_thread() and _before is signal.default_int_handler
if _ours:
    signal.signal(signal.SIGINT, signal.SIG_DFL)

from builder.cli.main import main  # noqa: E402 - after the signal is seen to

if _ours:
    signal.signal(signal.SIGINT, _before)

__all__ = ["main"]
