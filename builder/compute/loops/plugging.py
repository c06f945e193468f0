"""What is plugged in and unplugged where batteries fly joined: each by a plug of its own, or all by
one lead.
"""

import re

from builder.compute.figures.told import WordsOrTold, told
from builder.compute.loops.matching import joined_packs
from builder.model.build import Build, FittedPack

_FROM_NOW = " After this step 'the battery' means all of them: all plugged in, or all unplugged."


def every_battery(build: Build) -> str:
    """What is unplugged before hands go to the boards: with one of two in series off, the volts are
    gone, and the other still hangs on the wires.
    """
    return "every battery" if joined_packs(build) else "the battery"


def all_unplugged(build: Build, lines: list[str]) -> list[str]:
    """Lines that unplug the battery; where several fly joined, every one."""
    way = rf"\1 {every_battery(build)}"
    return [re.sub(r"\b([Uu]nplug) the battery\b", way, line) for line in lines]


def first_plugged_in(pack: FittedPack | None, which: str, limiter: WordsOrTold) -> WordsOrTold:
    """The first time that a battery feeds the boards, through a limiter: `which` names one that flies
    alone. Of batteries side by side one alone is plugged in, since a limiter in one lead limits
    nothing that comes by the other.
    """
    if pack is None or pack.joined == 1:
        return told(f"Plug in {which} through ", limiter, ": red to plus, black to minus.")
    batteries = f"the {pack.joined} batteries of {pack.key}"
    if pack.use.through:
        leads = " and ".join(pack.use.through)
        begin = f"Join {batteries} by {leads}, then plug in {leads} through "
    elif pack.use.parallel == 1:
        begin = f"Plug in {batteries}, one after the other. One goes through "
    else:
        alone = "one" if pack.use.series == 1 else f"{pack.use.series} in series"
        begin = f"Plug in {alone} of {batteries} alone, through "
    return told(begin, limiter, ": red to plus, black to minus.", _FROM_NOW)
