"""Which way a figure may err that leaves something out: a sum reads 'at least', what falls as the
sum grows 'at most'.
"""

from builder.compute.figures.figure import Figure, MaybeFigure

AT_LEAST, AT_MOST, ABOUT = "at least", "at most", "about"


def reading_of(figure: MaybeFigure) -> str:
    """The words before its value: '' for one that leaves nothing out.

    A total of weights or prices can only grow by what it leaves out. Through a formula the slope
    says which way that moves the result: weight up, time in the air down. Where inputs pull both
    ways, neither word would be true.
    """
    if not isinstance(figure, Figure) or not figure.lacks:
        return ""
    return {1: AT_LEAST, -1: AT_MOST}.get(_way(figure, {}), ABOUT)


def _way(figure: Figure, known: dict[int, int]) -> int:
    """1 where the true value can only be larger, -1 where only smaller, 0 where either."""
    if id(figure) not in known:
        open_ = [
            (slope, i)
            for slope, i in zip(figure.partials, figure.inputs, strict=True)
            if i.lacks and slope
        ]
        ways = {_way(i, known) * (1 if slope > 0 else -1) for slope, i in open_}
        if set(figure.lacks) - {name for _, i in open_ for name in i.lacks}:
            ways.add(
                1
                # it leaves something out itself: only a total does, and nothing weighs or costs less
                # than 0
            )
        known[id(figure)] = ways.pop() if len(ways) == 1 else 0
    return known[id(figure)]
