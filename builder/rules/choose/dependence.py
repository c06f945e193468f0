"""Whether another part in one place can change what a rule finds elsewhere, by the register of fields.

A rule that reads results may hang on anything. One that reads the build alone hangs on the fields
that the register names for it; a swap of parts that say none of these leaves its finding as it was.
"""

import inspect
import sys
from collections.abc import Iterable
from functools import cache
from types import ModuleType

from builder.load.field_readers import effects, readers
from builder.model.kinds import Motor, Pack, Propeller
from builder.model.source.part import Part
from builder.rules.field_register import owner_of
from builder.rules.find_rules import all_rules
from builder.rules.rule import Rule
from builder.rules.touched import fields_inside

_FLIGHT = ("compute/flight", "compute/circuit", "compute/power")
_IN_WORDS_ONLY = "Part.name"  # a figure is called by it, none is another for it
_WHERE_MOTORS_ARE = "Frame.motors"  # flight reads through geometry which rotors are on one axis
_ASKED_FOR_BY_NAME = (Propeller, Motor, Pack)  # bench tables and logs name them


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


def _said(part: Part) -> list[str]:
    return [n for n in part.model_fields_set if getattr(part, n) is not None]


def _fields_of(part: Part, names: Iterable[str]) -> set[str]:
    """These fields of a part and all inside of them, as the register calls them."""
    out: set[str] = set()
    for name in names:
        out |= {owner_of(type(part), name), *fields_inside(getattr(part, name))}
    return out


def _who_reads(field: str) -> tuple[str, ...]:
    return (*readers().get(field, ()), *effects().get(field, ()))


def readers_of(part: Part) -> frozenset[str]:
    """Every rule and figure that reads a field which the part says, its weight and size too."""
    return frozenset(who for f in _fields_of(part, _said(part)) for who in _who_reads(f))


def cannot_change(code: str, read: frozenset[str]) -> bool:
    """Whether a finding of a rule stays where parts are swapped whose fields are read by these alone."""
    return reads_build_alone(code) and code not in read


def only_weighs(old: Part, new: Part) -> bool:
    """Whether one part in place of another changes times in the air by its weight alone: what else
    the figures of flight read of them is the same in both.
    """
    if isinstance(old, _ASKED_FOR_BY_NAME):
        return False
    other = {n for n in (*_said(old), *_said(new)) if getattr(old, n) != getattr(new, n)}
    fields = {f for part in (old, new) for f in _fields_of(part, other.intersection(_said(part)))}
    read = (who for f in fields - {_IN_WORDS_ONLY} for who in _who_reads(f))
    return _WHERE_MOTORS_ARE not in fields and not any(who in _FLIGHT for who in read)


@cache
def cheap_first(rules: tuple[Rule, ...]) -> tuple[tuple[Rule, ...], tuple[Rule, ...]]:
    """Rules that read the build alone, those of fit before those of wiring, and the others."""
    alone = [r for r in rules if reads_build_alone(r.code)]
    last = ("wiring", "setup")
    early = sorted(alone, key=lambda r: r.family in last)
    return tuple(early), tuple(r for r in rules if r not in alone)
