"""Whether another part in one place can change what a rule finds elsewhere, by the register of fields.

A rule that reads results may hang on anything. One that reads the build alone hangs on the fields
that the register names for it; a swap of parts that say none of these leaves its finding as it was.
"""

import inspect
import sys
from functools import cache
from types import ModuleType

from builder.load.field_readers import effects, readers
from builder.model.source.part import Part
from builder.rules.field_register import owner_of
from builder.rules.find_rules import all_rules
from builder.rules.rule import Rule
from builder.rules.touched import fields_inside

_FLIGHT = ("compute/flight", "compute/circuit", "compute/power")


def _reads_results(module: ModuleType) -> bool:
    """Whether a rule, or what it shares with others of its family, asks for results."""
    shared = {
        getattr(value, "__module__", "") for value in vars(module).values() if callable(value)
    }
    family = module.__name__.rpartition(".")[0]
    names = {module.__name__, *(n for n in shared if n.startswith(f"{family}."))}
    return any(".results" in inspect.getsource(sys.modules[name]) for name in names)


@cache
def reads_build_alone(code: str) -> bool:
    """Whether a rule reads the build and none of its results."""
    rule = next(r for r in all_rules() if r.code == code)
    return not _reads_results(sys.modules[rule.check.__module__])


def readers_of(part: Part) -> frozenset[str]:
    """Every rule and figure that reads a field which the part says, its weight and size too."""
    said = [n for n in part.model_fields_set if getattr(part, n) is not None]
    fields: set[str] = set()
    for name in said:
        fields |= {owner_of(type(part), name), *fields_inside(getattr(part, name))}
    found = (who for f in fields for who in (*readers().get(f, ()), *effects().get(f, ())))
    return frozenset(found)


def cannot_change(code: str, read: frozenset[str]) -> bool:
    """Whether a finding of a rule stays where parts are swapped whose fields are read by these alone."""
    return reads_build_alone(code) and code not in read


def is_inert(read: frozenset[str]) -> bool:
    """Whether a part that is read by these changes times in the air by its weight alone."""
    return not read.intersection(_FLIGHT)


@cache
def cheap_first(rules: tuple[Rule, ...]) -> tuple[tuple[Rule, ...], tuple[Rule, ...]]:
    """Rules that read the build alone, those of fit before those of wiring, and the others."""
    alone = [r for r in rules if reads_build_alone(r.code)]
    last = ("wiring", "setup")
    early = sorted(alone, key=lambda r: r.family in last)
    return tuple(early), tuple(r for r in rules if r not in alone)
