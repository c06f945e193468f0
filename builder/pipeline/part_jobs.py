"""Which pages of parts there are: one for each part of the shelf that a published build uses."""

from collections.abc import Mapping

from builder.model.build import ShelfEntry
from builder.pages.part_history import swappings
from builder.pages.site_pages import SitePages
from builder.pages.summary import Summary
from builder.pipeline.jobs import PartJob


def part_jobs(
    shelf: Mapping[str, ShelfEntry], summaries: tuple[Summary, ...], site: SitePages, templates: Mapping[str, str]
) -> dict[str, PartJob]:
    """By shelf name, in the order of the shelf. Every build and every swap is looked at once."""
    users: dict[str, dict[str, Summary]] = {name: {} for name in shelf}
    for summary in summaries:
        for name in summary.uses.intersection(users):
            users[name][summary.name] = summary
    shown = frozenset(name for name, found in users.items() if found)
    history: dict[str, list[int]] = {}
    swaps = swappings(summaries)
    for i, swap in enumerate(swaps):
        history.setdefault(swap.shelf, []).append(i)
    out = {}
    for name in (n for n in shelf if n in shown):
        mine = tuple(swaps[i] for i in history.get(name, ()))
        others = sorted({h.other for h in mine} & set(shelf))
        names = {o: shelf[o].part.name for o in others}
        used_by = tuple(users[name].values())
        out[name] = PartJob(shelf[name], used_by, mine, names, shown & set(others), site, templates)
    return out
