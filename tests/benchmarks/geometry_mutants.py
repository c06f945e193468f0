"""Geometry with one comparison, constant or word of logic changed: how many changes the fit rules'
cases notice.

Each file of builder/compute/geometry that rules ask while they judge is changed in one place at a
time, as rule_mutants changes rules; the code of its functions is put in the place of what stands.
The cases of the rules that come to it, their seeded faults and the demo builds are judged again.
What is worked out before rules judge (screws, stacks) is not reached so, and is not on the list.

    python -m tests.benchmarks.geometry_mutants              # all of them
    python -m tests.benchmarks.geometry_mutants reach straps # some
"""

import importlib
import sys
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from types import FunctionType, ModuleType
from typing import Any

import builder
from builder.rules.find_rules import all_rules
from builder.rules.rule import Case, Rule
from tests.benchmarks.measured import Line
from tests.benchmarks.rule_mutants import (
    Mutant,
    demo_cases,
    line_of,
    more,
    mutants,
    seeded_cases,
    what_it_says,
)
from tests.compute import test_solids
from tests.rules.rule_files import case_of, rule_cases

GEOMETRY = Path(builder.__file__).parent / "compute" / "geometry"
# Which rules ask a file while they judge.
ASKED_BY: Mapping[str, tuple[str, ...]] = {
    "reach": ("fit/reach-blocked", "fit/strap-in-the-way"),
    "straps": ("fit/strap-in-the-way",),
    "on_boards": ("fit/head-on-copper",),
    "edge_places": ("fit/reach-blocked", "wiring/cable-too-short", "wiring/wire-too-short"),
    "solids": ("fit/one-place-for-two", "fit/part-near-disc", "fit/reach-blocked"),
    "touching": ("fit/one-place-for-two", "fit/part-near-disc", "fit/strap-in-the-way"),
    "placed_bodies": ("fit/one-place-for-two", "fit/part-near-disc", "fit/strap-in-the-way"),
    "clearances": (
        "fit/part-near-disc",
        "fit/lead-near-disc",
        "fit/compass-near-leads",
        "fit/antenna-crowded",
        "fit/antenna-connector-unlike",
        "fit/propeller-too-large",
        "setup/turns-do-not-balance",
        "radio/satellite-near-sender",
        "radio/reach-disagrees",
    ),
}
# Proofs of a file against scipy, which take no part of pytest with them.
PROVED_BY: Mapping[str, tuple[Callable[[], None], ...]] = {
    "solids": (
        test_solids.test_boxes_as_scipy_finds_them,
        test_solids.test_cylinders_as_scipy_finds_them,
        test_solids.test_a_cylinder_beside_a_box_is_a_point_less_its_radius,
        test_solids.test_two_cylinders,
    )
}


def _functions(module: ModuleType) -> dict[str, FunctionType]:
    """Functions of a module, methods and properties of its classes, by name."""
    found = {}
    for name, value in vars(module).items():
        if getattr(value, "__module__", "") != module.__name__:
            continue
        if isinstance(value, FunctionType):
            found[name] = value
        for key, each in vars(value).items() if isinstance(value, type) else ():
            inner = each.fget if isinstance(each, property) else each
            if isinstance(inner, FunctionType):
                found[f"{name}.{key}"] = inner
    return found


def _constants(module: ModuleType) -> dict[str, Any]:
    plain = (int, float, tuple)
    return {k: v for k, v in vars(module).items() if isinstance(v, plain) and k.isupper()}


class _Changed:
    """A module with a mutant's code in it, and its own again afterwards."""

    def __init__(self, module: ModuleType, mutant: Mutant) -> None:
        self.module = module
        self.code = {name: f.__code__ for name, f in _functions(module).items()}
        self.constants = _constants(module)
        self.other = ModuleType(module.__name__)
        vars(self.other)["_more"] = more
        sys.modules[module.__name__] = self.other
        try:
            exec(compile(mutant.tree, "mutant", "exec"), vars(self.other))  # our own code
        finally:
            sys.modules[module.__name__] = module

    def __enter__(self) -> None:
        changed = _functions(self.other)
        for name, function in _functions(self.module).items():
            if changed[name].__code__.co_freevars == function.__code__.co_freevars:
                function.__code__ = changed[name].__code__
        vars(self.module).update(_constants(self.other))

    def __exit__(self, *_: object) -> None:
        for name, function in _functions(self.module).items():
            function.__code__ = self.code[name]
        vars(self.module).update(self.constants)


def _fails(proof: Callable[[], None]) -> bool:
    try:
        proof()
    except Exception:  # noqa: BLE001 - whatever a mutant does is noticed
        return True
    return False


def _noticed(asked: list[tuple[Rule, Case, object]]) -> bool:
    return any(what_it_says(rule, case) != right for rule, case, right in asked)


def _asked(codes: tuple[str, ...], demo: list[Case]) -> Iterator[tuple[Rule, Case, object]]:
    """Each rule with each of its cases, and what it says of it."""
    for rule in all_rules():
        if rule.code in codes:
            own = [case_of(c.given) for c in rule_cases() if c.rule == rule.code]
            for case in (*own, *seeded_cases(rule), *demo):
                yield rule, case, what_it_says(rule, case)


def killed(only: list[str]) -> Iterator[Line]:
    """One line a file with the share that is noticed, and each survivor."""
    demo = demo_cases()
    for name in only or ASKED_BY:
        module = importlib.import_module(f"builder.compute.geometry.{name}")
        asked = list(_asked(ASKED_BY[name], demo))
        left, made = [], 0
        for mutant in mutants((GEOMETRY / f"{name}.py").read_text("utf-8")):
            made += 1
            try:
                changed = _Changed(module, mutant)
            except Exception:  # noqa: BLE001 - one that cannot be loaded is noticed
                continue
            with changed:
                proofs = PROVED_BY.get(name, ())
                if not _noticed(asked) and not any(map(_fails, proofs)):
                    left.append(mutant)
        yield line_of(f"geometry/{name}", left, made)


if __name__ == "__main__":
    for line in killed(sys.argv[1:]):
        print(line, flush=True)
