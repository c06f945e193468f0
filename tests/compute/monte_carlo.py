"""A figure computed anew from leaves that are drawn at random (JCGM 101:2008, propagation of
distributions).
"""

from random import Random

from builder.compute.figures.figure import Figure

REACH = (
    3**0.5
    # a rectangle this wide each way has a standard deviation of 1, and no draw is a mass below nothing
)


def again(figure: Figure, draw: dict[str, float], random: Random) -> float:
    """Its value from leaves in `draw`; a leaf that is not there yet is drawn once, for all who
    share it.
    """
    values: dict[int, float] = {}
    for node in figure.derivation:
        if node.formula is None:
            if node.key not in draw:
                draw[node.key] = random.uniform(
                    node.value - REACH * node.own, node.value + REACH * node.own
                )
            values[id(node)] = draw[node.key]
        else:
            values[id(node)] = node.formula.function(*(values[id(i)] for i in node.inputs))
    return values[id(figure)]
