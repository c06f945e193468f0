"""Which pages of parts there are: one for each part of the shelf that a published build uses."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import astuple, dataclass

from builder.pages.site.part_history import Swapping, swappings
from builder.pages.summaries.summary import Summary


@dataclass(frozen=True, eq=False)
class WantedPart:
    """What the page of a part shows of builds and of other parts; the part itself is read when the
    page is made.
    """

    shelf: str
    users: tuple[Summary, ...]
    history: tuple[Swapping, ...]
    names: Mapping[str, str]
    shown: frozenset[str]

    def digest(self, summaries: Mapping[str, str]) -> str:
        """The digest of all of it, from those of the summaries by name of build."""
        users = [summaries[s.name] for s in self.users]
        history = [astuple(h) for h in self.history]
        others = sorted(self.shown)
        shown = [self.shelf, users, history, dict(self.names), others]
        return hashlib.sha256(json.dumps(shown).encode()).hexdigest()


def on_part_pages(summary: Summary) -> str:
    """The digest of what the pages of its parts show of a build, besides what became of the parts."""
    s = summary
    packs = s.packs, s.packs_used, s.flights, s.flown
    shown = (s.name, s.title, s.status, s.parts, packs, s.weighed)
    return hashlib.sha256(json.dumps(shown).encode()).hexdigest()


def wanted_parts(
    names: Mapping[str, str], summaries: tuple[Summary, ...]
) -> tuple[WantedPart, ...]:
    """In the order of the shelf, of which `names` are those that pages show. Every build and swap
    is looked at once.
    """
    users: dict[str, dict[str, Summary]] = {shelf: {} for shelf in names}
    for summary in summaries:
        for shelf in summary.uses.intersection(users):
            users[shelf][summary.name] = summary
    shown = frozenset(shelf for shelf, found in users.items() if found)
    history: dict[str, list[Swapping]] = {}
    for swap in swappings(summaries):
        history.setdefault(swap.shelf, []).append(swap)
    out = []
    for shelf in (n for n in names if n in shown):
        mine = tuple(history.get(shelf, ()))
        others = sorted({h.other for h in mine} & set(names))
        named = {o: names[o] for o in others}
        out.append(
            WantedPart(shelf, tuple(users[shelf].values()), mine, named, shown & set(others))
        )
    return tuple(out)
