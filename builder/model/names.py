"""What may name a build: its name is a folder and becomes an address."""

import re

_SAFE = re.compile(r"[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?")
_TAKEN = ("shelf", "compare", "parts", "assets")
NAME_HINT = f"Use small letters, digits and hyphens, and none of {', '.join(_TAKEN)}."


def may_name_a_build(name: str) -> bool:
    """Whether a build may be called that."""
    return _SAFE.fullmatch(name) is not None and name not in _TAKEN
