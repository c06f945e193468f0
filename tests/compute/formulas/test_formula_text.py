"""The reader of formula docstrings: what it takes, and how it names the fault."""

from collections.abc import Callable

import pytest

from builder.compute.figures.formula import Symbol, formula_text

GOOD = """Area of a sheet.

    Formula: A = a b
    length: a, length of the sheet, along the grain [m]
    width: b, width [m]
    Gives: A, area [m²]
    Limits: neither may be negative,
        else ValueError.
    Source: definition

    >>> 2 * 3
    6
    """


def documented(doc: str | None) -> Callable[[float, float], float]:
    def area(length: float, width: float) -> float:
        return length * width

    area.__doc__ = doc
    return area


def test_a_good_docstring_is_read() -> None:
    text = formula_text(documented(GOOD))
    assert text.title == "Area of a sheet."
    assert text.formula == "A = a b"
    assert text.arguments == (
        Symbol("length", "a", "length of the sheet, along the grain", "m"),
        Symbol("width", "b", "width", "m"),
    )
    assert text.gives == Symbol("Gives", "A", "area", "m²")
    assert text.limits == "neither may be negative, else ValueError."
    assert text.source == "definition"


def test_the_same_function_is_read_once() -> None:
    area = documented(GOOD)
    assert formula_text(area) is formula_text(area)


def test_it_stands_without_an_example() -> None:
    assert formula_text(documented(GOOD[: GOOD.index("    >>>")])).source == "definition"


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("Area of a sheet.", "Area of a sheet", "Area of a sheet"),
        ("Area of a sheet.\n", "Area of a sheet.\n    And more.\n", "And more."),
        ("Formula: A = a b", "Equation: A = a b", "Equation: A = a b"),
        ("    width: b, width [m]\n", "", "Gives: A, area [m²]"),
        ("width: b", "breadth: b", "breadth: b, width [m]"),
        ("width: b, width [m]", "width: b, width", "width: b, width"),
        ("width: b, width [m]", "width: width [m]", "width: width [m]"),
        ("width: b, width [m]", "width: b, width []", "width: b, width []"),
        ("Gives: A, area [m²]", "Returns: A, area [m²]", "Returns: A, area [m²]"),
        ("    Source: definition\n", "", ""),
        ("Source: definition", "Source:", "Source:"),
        ("Source: definition", "Source: definition\n    Note: none", "Note: none"),
    ],
)
def test_a_fault_names_function_and_line(old: str, new: str, line: str) -> None:
    assert old in GOOD
    with pytest.raises(ValueError, match=r"docstring of .*\.area, line") as caught:
        formula_text(documented(GOOD.replace(old, new)))
    assert repr(line)[1:-1] in str(caught.value)


def test_no_docstring_is_a_fault() -> None:
    with pytest.raises(ValueError, match="there is no docstring"):
        formula_text(documented(None))
