"""Which addresses of other hosts a text may link to."""

import re

_SCHEME = re.compile(r"(https?://|mailto:)[^\s\\<>\"'`{}|^\x00-\x20]+", re.IGNORECASE)
_LONGEST = 2_000


def is_full_address(address: str) -> bool:
    """Whether it is an http, https or mailto address, written out in full."""
    return len(address) <= _LONGEST and _SCHEME.fullmatch(address) is not None
