"""'Did you mean': the known name nearest to one that is not known."""

from collections.abc import Iterable
from difflib import get_close_matches


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name that `name` was most likely meant to be, or None."""
    by_folded = {k.casefold().replace("-", "_"): k for k in sorted(known)}
    found = get_close_matches(name.casefold().replace("-", "_"), list(by_folded), n=1, cutoff=0.6)
    return by_folded[found[0]] if found else None


def did_you_mean(name: str, known: Iterable[str], most: int = 8) -> str:
    """A hint: the nearest known name, or the list of what is known."""
    names = sorted(known)
    near = nearest(name, names)
    if near is not None:
        return f"Did you mean {near!r}?"
    if not names:
        return "There is none to choose from."
    shown = ", ".join(names[:most])
    shown += f" and {len(names) - most} more" if len(names) > most else ""
    return f"Known here: {shown}."
