"""What became of a part over all builds: what it was swapped for, what it replaced, and where it
broke.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.pages.summaries.summary import Summary


@dataclass(frozen=True, slots=True)
class Swapping:
    """A part of the shelf and what stands for it elsewhere: `other` is '' where it was replaced by
    its like.
    """

    shelf: str
    other: str
    build: str
    title: str
    how: str


def _shelf_at(summary: Summary) -> dict[str, str]:
    return {key: shelf for key, shelf, _ in summary.parts}


def _of_variants(summaries: Sequence[Summary]) -> list[Swapping]:
    """A variant has another part in a place of its base."""
    by_name = {s.name: s for s in summaries}
    out = []
    for variant in summaries:
        base = by_name.get(variant.based_on)
        if base is None:
            continue
        here, there = _shelf_at(variant), _shelf_at(base)
        for key, old in there.items():
            new = here.get(key, "")
            if new and new != old:
                out.append(
                    Swapping(
                        old,
                        new,
                        variant.name,
                        variant.title,
                        f"as {key}, a variant of {base.title}",
                    )
                )
                out.append(
                    Swapping(
                        new,
                        old,
                        base.name,
                        base.title,
                        f"as {key}, on which {variant.title} is based",
                    )
                )
    return out


def swappings(summaries: Sequence[Summary]) -> tuple[Swapping, ...]:
    """Swaps made by variants, swaps that builds name as possible, and repairs, in the order of the
    builds.
    """
    out = _of_variants(summaries)
    for s in summaries:
        for key, shelf, other in s.alternatives:
            out.append(
                Swapping(shelf, other, s.name, s.title, f"as {key}, named as an alternative")
            )
            out.append(
                Swapping(
                    other,
                    shelf,
                    s.name,
                    s.title,
                    f"as {key}, to which this is named as an alternative",
                )
            )
        for date, shelf, what in s.replaced:
            out.append(Swapping(shelf, "", s.name, s.title, f"{date}: {what}"))
    return tuple(dict.fromkeys(out))
