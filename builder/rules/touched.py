"""Which rules a swap of a part touches, by the register of facts: those that read a field which the
part says, or that answer otherwise when it is set otherwise. No list of rules is kept by hand.

Only rules that say whether a part fits count. That the figures of a motor agree with each other, or
a battery's dates, says nothing of how it fits, so it is never given as something that was found
right.
"""

from collections.abc import Iterator, Mapping

from builder.load.field_readers import effects, readers
from builder.model.source.part import Part
from builder.model.values.base import Frozen
from builder.rules.field_register import owner_of
from builder.rules.judge_swap import rules_of_swaps


def fields_inside(value: object) -> Iterator[str]:
    """The fields that are said inside of a value."""
    if isinstance(value, Frozen):
        for name in value.model_fields_set:
            yield owner_of(type(value), name)
            yield from fields_inside(getattr(value, name))
    elif isinstance(value, tuple):
        for item in value:
            yield from fields_inside(item)
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from fields_inside(item)


def _of_kind(part: Part) -> tuple[str, ...]:
    """What the part says as one of its kind, and how it is fed; not its weight, price and the like."""
    own = [n for n in type(part).model_fields if n not in Part.model_fields]
    said = [n for n in own if n in part.model_fields_set and getattr(part, n) is not None]
    return (*said, *(["supply"] if part.supply is not None else []))


def touched(part: Part) -> Mapping[str, tuple[str, ...]]:
    """For each rule by its code the keys of the part that it looks at; rules of swaps alone."""
    asked = {rule.code for rule in rules_of_swaps()}
    out: dict[str, dict[str, None]] = {}
    for name in _of_kind(part):
        fields = (owner_of(type(part), name), *fields_inside(getattr(part, name)))
        found = (c for f in fields for c in (*readers().get(f, ()), *effects().get(f, ())))
        for code in (c for c in found if c in asked):
            out.setdefault(code, {})[name.replace("_", " ")] = None
    return {code: tuple(names) for code, names in out.items()}
