"""Which builds are put side by side: named pairs, each variant with its base, all pairs while they
are few.
"""

from collections.abc import Iterable, Mapping, Sequence
from itertools import combinations

ALL_PAIRS_UP_TO = 8  # builds; 28 pages. Beyond it pages grow with named pairs and variants only.


def pairs_to_compare(
    names: Iterable[str], bases: Mapping[str, str], named: Sequence[Sequence[str]]
) -> tuple[tuple[str, str], ...]:
    """Pairs in a settled order, each once: (a, b) as named, (base, variant), then by name."""
    known = sorted(names)
    pairs = [(p[0], p[1]) for p in named if len(p) == 2]
    wanted = [(a, b) for a, b in pairs if a != b and {a, b} <= set(known)]
    wanted += [(bases[n], n) for n in known if bases.get(n) in known]
    if len(known) <= ALL_PAIRS_UP_TO:
        wanted += list(combinations(known, 2))
    seen: dict[frozenset[str], tuple[str, str]] = {}
    for pair in wanted:
        seen.setdefault(frozenset(pair), pair)
    return tuple(seen.values())
