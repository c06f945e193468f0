"""A figure computed anew from leaves that are drawn at random (JCGM 101:2008, propagation of
distributions).
"""

from random import Random

from builder.compute.figures.figure import Figure

REACH = 3**0.5  # a rectangle this wide each way has a standard deviation of 1


def _drawn(leaf: Figure, random: Random) -> float:
    """A draw of the leaf's own mean and standard deviation: from a rectangle, or, where that would
    reach below nothing from a value above it, as a mass does not, from a gamma distribution.
    """
    low = leaf.value - REACH * leaf.own
    if leaf.value > 0 > low:
        return random.gammavariate((leaf.value / leaf.own) ** 2, leaf.own**2 / leaf.value)
    return random.uniform(low, leaf.value + REACH * leaf.own)


def again(figure: Figure, draw: dict[str, float], random: Random) -> float:
    """Its value from leaves in `draw`; a leaf that is not there yet is drawn once, for all who
    share it.
    """
    values: dict[int, float] = {}
    for node in figure.derivation:
        if node.formula is None:
            if node.key not in draw:
                draw[node.key] = _drawn(node, random)
            values[id(node)] = draw[node.key]
        else:
            values[id(node)] = node.formula.function(*(values[id(i)] for i in node.inputs))
    return values[id(figure)]
