"""Every formula says in its docstring what it computes, in which units, within which limits, from
which source.
"""

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable
from types import ModuleType

import pytest

import builder.compute.formulas as package
from builder.compute.figures.formula import formula_text
from tests.units import UNITS

MODULES = [
    importlib.import_module(found.name)
    for found in pkgutil.walk_packages(package.__path__, package.__name__ + ".")
]
# Derived units that the project writes; any other word in brackets is a slip. Degrees Celsius stand
# in one formula.
BASE_FACTOR_NOT_ONE = {"°C", "dB", "dBm"}


def public_functions(module: ModuleType) -> list[Callable[..., float]]:
    return [
        thing
        for name, thing in vars(module).items()
        if inspect.isfunction(thing)
        and thing.__module__ == module.__name__
        and not name.startswith("_")
    ]


FUNCTIONS = [function for module in MODULES for function in public_functions(module)]
all_formulas = pytest.mark.parametrize("function", FUNCTIONS, ids=lambda f: f.__name__)


def test_the_search_finds_the_formulas() -> None:
    assert len(FUNCTIONS) > 140
    assert len({f.__name__ for f in FUNCTIONS}) == len(FUNCTIONS), "two formulas share a name"


@all_formulas
def test_symbols_name_the_arguments_in_order(function: Callable[..., float]) -> None:
    text = formula_text(function)
    assert [a.name for a in text.arguments] == list(inspect.signature(function).parameters)
    for symbol in (*text.arguments, text.gives):
        assert symbol.symbol in text.formula, f"{symbol.symbol} does not stand in {text.formula!r}"


@all_formulas
def test_units_are_coherent_si(function: Callable[..., float]) -> None:
    text = formula_text(function)
    for symbol in (*text.arguments, text.gives):
        unit = UNITS.parse_units(symbol.unit)
        if symbol.unit not in BASE_FACTOR_NOT_ONE:
            factor = UNITS.Quantity(1.0, unit).to_base_units().magnitude
            assert factor == pytest.approx(1.0) or symbol.unit.startswith("kg"), (
                f"[{symbol.unit}] is not coherent SI"
            )


@all_formulas
def test_shape_of_the_docstring(function: Callable[..., float]) -> None:
    text = formula_text(function)
    lines = inspect.cleandoc(function.__doc__ or "").splitlines()
    assert 8 <= len(lines) <= 24
    assert text.source
    assert text.limits.endswith(".")
    assert text.title[0].isupper()


@all_formulas
def test_arguments_are_plain_numbers_without_defaults(function: Callable[..., float]) -> None:
    for parameter in inspect.signature(function).parameters.values():
        assert parameter.default is inspect.Parameter.empty
        assert parameter.annotation in (float, tuple[float, ...])
    assert inspect.signature(function).return_annotation is float


@all_formulas
def test_a_limit_that_raises_is_raised_in_a_sentence(function: Callable[..., float]) -> None:
    """Whoever writes 'ValueError' in the limits raises it somewhere, and nobody raises it unsaid."""
    source = inspect.getsource(function)
    body = source[source.rindex('"""') :]
    if "raise ValueError" in body:
        assert "ValueError" in formula_text(function).limits
        assert re.search(r'raise ValueError\(\s*"', body), (
            "the sentence stands in the code, word by word"
        )


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.__name__.split(".")[-1])
def test_examples(module: ModuleType) -> None:
    results = doctest.testmod(module)
    assert results.failed == 0
    assert results.attempted >= len(public_functions(module)), "a formula has no example"


def test_no_formula_needs_more_than_the_standard_library() -> None:
    for module in MODULES:
        for line in inspect.getsource(module).splitlines():
            if line.startswith(("import ", "from ")):
                name = line.split()[1].split(".")[0]
                assert name in {
                    "math",
                    "decimal",
                    "bisect",
                    "functools",
                    "itertools",
                    "statistics",
                    "dataclasses",
                    "builder",
                }, line
