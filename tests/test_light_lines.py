"""Statements that are read at one go: at most one conditional expression in each, none nested.

Read off the source with ast. A statement is counted without the statements inside of it.
"""

import ast
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

import builder

CODE = Path(builder.__file__).parent


def statements(code: str) -> Iterator[ast.stmt]:
    """Every statement but docstrings."""
    for node in ast.walk(ast.parse(code)):
        is_words = isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
        if isinstance(node, ast.stmt) and not is_words:
            yield node


def expressions(statement: ast.stmt) -> list[ast.expr]:
    """The expressions of a statement, not those of statements inside of it."""
    out: list[ast.expr] = []
    inside = list(ast.iter_child_nodes(statement))
    while inside:
        node = inside.pop()
        if isinstance(node, ast.stmt):
            continue
        if isinstance(node, ast.expr):
            out.append(node)
        inside.extend(ast.iter_child_nodes(node))
    return out


def conditionals(statement: ast.stmt) -> int:
    """How many `a if b else c` a statement holds."""
    return sum(isinstance(e, ast.IfExp) for e in expressions(statement))


def room_of(path: Path) -> str:
    """The stage; in compute, the room."""
    parts = path.relative_to(CODE).parts
    depth = 2 if parts[0] == "compute" and len(parts) > 2 else 1
    return "/".join(parts[:depth])


def by_room() -> dict[str, list[ast.stmt]]:
    """The statements of each room."""
    out: dict[str, list[ast.stmt]] = {}
    for path in sorted(CODE.rglob("*.py")):
        out.setdefault(room_of(path), []).extend(statements(path.read_text("utf-8")))
    return out


# Statements with more than one conditional expression that are left. The numbers may only get
# smaller.
SEVERAL_LEFT = {
    "pages": 26,
    "compute/flight": 8,
    "compute/joints": 2,
    "compute/power": 1,
    "compute/radio": 5,
}


def test_a_statement_holds_one_conditional_expression_at_most() -> None:
    several = {room: sum(conditionals(s) > 1 for s in all_) for room, all_ in by_room().items()}
    found = Counter({room: number for room, number in several.items() if number})
    over = {room: n for room, n in found.items() if n > SEVERAL_LEFT.get(room, 0)}
    assert not over, "give the middle results names"
    assert set(SEVERAL_LEFT) <= set(found), "take a room without any out of the list"


@pytest.mark.parametrize(
    ("code", "number"),
    [
        ("x = a if b else c", 1),
        ("x = a if b else c if d else e", 2),
        ("f(a if b else c, d if e else g)", 2),
        ("if a:\n    x = b if c else d\n    y = b if c else d", 1),
        ("def f():\n    return a if b else c", 1),
    ],
)
def test_conditional_expressions_are_counted_by_statement(code: str, number: int) -> None:
    assert max(map(conditionals, statements(code))) == number
