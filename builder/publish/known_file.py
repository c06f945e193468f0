"""What the last publish read without a mistake, kept beside the site: it only saves time, and may be deleted."""

import json
from contextlib import suppress
from pathlib import Path

from builder.model.known import Known
from builder.publish.plain_files import read_plain, replace_plain
from builder.publish.stale import own_digest

KNOWN = ".site-known"


def read_known(workspace: Path) -> Known:
    """What is kept; nothing where there is nothing, or another version of Benchleaf kept it."""
    try:
        kept = json.loads(read_plain(workspace / KNOWN))
        return Known.from_plain(kept["known"]) if kept["code"] == own_digest() else Known()
    except (OSError, ValueError, LookupError, TypeError, AttributeError):
        return Known()


def keep_known(workspace: Path, known: Known, before: Known) -> None:
    """Keeps it for the next publish, if it is other than `before`."""
    if known == before:
        return
    content = json.dumps({"code": own_digest(), "known": known.as_plain()})
    with suppress(OSError):
        replace_plain(workspace / KNOWN, content.encode())
