"""What became of a part over all builds: what it was swapped for, what it replaced, and where it
broke.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from builder.pages.finding_words import FIT_WORDS
from builder.pages.summaries.summary import Summary
from builder.rounding import rounded


@dataclass(frozen=True, slots=True)
class Swapping:
    """A part of the shelf and what stands for it elsewhere: `other` is '' where it was replaced by
    its like. `found` is what the checks said of `other` in its place, '' where they were not asked.
    """

    shelf: str
    other: str
    build: str
    title: str
    how: str
    found: str = ""


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


def _found(grams: float | None, answer: str) -> str:
    """What the checks said of a swap, and what it adds."""
    words = FIT_WORDS[answer]
    if grams is None:
        return f"{words}, grams not known"
    text = rounded(grams, 1)
    return f"{words}, {'+' if grams > 0 else ''}{text} g"


def swappings(summaries: Sequence[Summary]) -> tuple[Swapping, ...]:
    """Swaps made by variants, swaps that builds name as possible, and repairs, in the order of the
    builds.
    """
    out = _of_variants(summaries)
    for s in summaries:
        judged = {(key, other): _found(grams, answer) for key, other, answer, grams in s.tried}
        for key, shelf, other in s.alternatives:
            how, found = f"as {key}, named as an alternative", judged.get((key, other), "")
            out.append(Swapping(shelf, other, s.name, s.title, how, found))
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


def flights_words(shelf: str, summary: Summary) -> str:
    """How often a part flew on a build by its log; a battery only what it was flown on itself."""
    if shelf in summary.packs_used:
        flown = {name: (many, mean) for name, many, mean in summary.flown}
        many, mean = flown.get(shelf, (0, 0.0))
        return f"{many}, {rounded(mean / 60, 1)} min each" if many else ""
    return str(summary.flights) if summary.flights else ""
