"""Runs the `benchleaf` command in this process and kills it, unasked and at once, before its n-th
touch of the disk.

    python tests/publish/dies_at.py N publish --workspace DIR

N = 0 kills nothing and prints how many touches there were, and which was the exchange. Touches are
counted from the moment that the lock file is opened; a touch is what changes the disk, and what is
about to.
"""

import os
import signal
import sys
from typing import Any

_TOUCHES = {
    "os.mkdir",
    "os.link",
    "os.rename",
    "os.remove",
    "os.rmdir",
    "shutil.rmtree",
    "shutil.copyfile",
}
_AROUND = {"ctypes.dlopen", "ctypes.dlsym"}  # where the two folders change places


class Counter:
    """Counts touches; kills this process before the n-th."""

    def __init__(self, fatal: int) -> None:
        self.fatal, self.seen, self.started = fatal, 0, False
        self.exchange = 0  # the touch at which the old site and the new change places

    def __call__(self, event: str, arguments: tuple[Any, ...]) -> None:
        """What the interpreter calls before each event."""
        if event == "open":
            path, _, flags = arguments
            name = os.fspath(path) if isinstance(path, str | os.PathLike) else ""
            self.started = self.started or str(name).endswith(".site-lock")
            writes = isinstance(flags, int) and flags & (os.O_WRONLY | os.O_RDWR)
            if not writes and ".site-next" not in str(name):
                return
        elif event not in _TOUCHES and event not in _AROUND:
            return
        if self.started:
            self.seen += 1
            self.exchange = self.seen if event in _AROUND else self.exchange
            if self.seen == self.fatal:
                os.kill(os.getpid(), signal.SIGKILL)


def main() -> None:
    """The command."""
    from builder.cli.main import main as benchleaf

    counter = Counter(int(sys.argv.pop(1)))
    sys.addaudithook(counter)
    try:
        benchleaf()
    finally:
        if not counter.fatal:
            print(f"touches: {counter.seen}, exchange: {counter.exchange}")


if __name__ == "__main__":
    main()
