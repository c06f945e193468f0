"""Whether plain values that were read from a file have the shape that they were written in."""

from typing import Any

# A type; a list of one shape (any number of it); a dictionary of one shape under the key `...` (any
# keys); a dictionary of named shapes (just these keys); a tuple of shapes (a list of just these); a
# set of shapes, as a frozenset (one of).
PlainShape = Any


def fits(value: Any, shape: PlainShape) -> bool:
    """Whether a value has a shape; True is no number, and a number is no True."""
    if isinstance(shape, frozenset):
        return any(fits(value, one) for one in shape)
    if isinstance(shape, list):
        return type(value) is list and all(fits(one, shape[0]) for one in value)
    if isinstance(shape, tuple):
        return type(value) is list and len(value) == len(shape) and all(map(fits, value, shape))
    if not isinstance(shape, dict):
        return shape is Any or type(value) is shape
    if type(value) is not dict:
        return False
    if ... in shape:
        return all(fits(one, shape[...]) for one in value.values())
    return value.keys() == shape.keys() and all(fits(value[key], one) for key, one in shape.items())
