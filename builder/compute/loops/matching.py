"""What is measured before batteries are joined: the volts of each, and how far they may be apart."""

from builder.compute.figures.told import PlainValue, WordsOrTold, told
from builder.load.assumed import assumed
from builder.model.build import Build, FittedPack

SIDE_BY_SIDE = assumed("battery/apart-in-parallel")
IN_SERIES = assumed("battery/apart-in-series")


def joined_packs(build: Build) -> tuple[FittedPack, ...]:
    """The batteries of a build of which several fly joined."""
    return tuple(p for p in build.packs.values() if p.joined > 1)


def apart_at_most(pack: FittedPack) -> float | None:
    """By how much the volts of two batteries may differ that are joined (V); None where nobody says
    their cells.
    """
    if pack.part.cells is None:
        return None
    each = SIDE_BY_SIDE if pack.use.parallel > 1 else IN_SERIES
    return each * pack.part.cells.low


def matching_words(build: Build) -> WordsOrTold | None:
    """The step before batteries are joined; None where none are."""
    rows: list[str | PlainValue] = []
    for pack in joined_packs(build):
        apart = apart_at_most(pack)
        rows.append(f" Join the {pack.joined} of {pack.key} only if they differ by ")
        if apart is None:
            rows.append("less than 0.05 V a cell.")
        else:
            rows += [PlainValue(apart, "V"), " at most."]
    if not rows:
        return None
    return told("Measure the volts of each battery, away from the aircraft.", *rows)
