"""Formulas that only tests call are in a list, unused.txt, which may only get shorter.

Read off the source: a formula is used where another stage or room names it, or a formula that is
used.
"""

import ast
from pathlib import Path

import pytest

import builder

pytestmark = pytest.mark.slow  # takes long

CODE = Path(builder.__file__).parent
ROOM = CODE / "compute" / "formulas"
LIST = Path(__file__).with_name("unused.txt")


def _names(tree: ast.AST) -> set[str]:
    """All names that a piece of code reads or imports."""
    out: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Name):
            out.add(node.id)
        elif isinstance(node, ast.Attribute):
            out.add(node.attr)
        elif isinstance(node, ast.ImportFrom):
            out |= {alias.name for alias in node.names}
    return out


def _formulas() -> dict[str, tuple[str, ast.FunctionDef]]:
    """Each function of the room: its module, and its code."""
    out: dict[str, tuple[str, ast.FunctionDef]] = {}
    for path in sorted(ROOM.rglob("*.py")):
        module = ".".join(path.relative_to(ROOM).with_suffix("").parts)
        tree = ast.parse(path.read_text("utf-8"))
        out |= {n.name: (module, n) for n in tree.body if isinstance(n, ast.FunctionDef)}
    return out


def _unused() -> set[str]:
    formulas = _formulas()
    outside = [p for p in CODE.rglob("*.py") if ROOM not in p.parents]
    named = set().union(*(_names(ast.parse(p.read_text("utf-8"))) for p in outside))
    todo = sorted(named & set(formulas))
    used = set(todo)
    while todo:
        _, code = formulas[todo.pop()]
        more = _names(code) & set(formulas) - used
        used |= more
        todo += sorted(more)
    public = {name for name in formulas if not name.startswith("_")}
    return {f"{formulas[name][0]}.{name}" for name in public - used}


def _listed() -> set[str]:
    lines = LIST.read_text("utf-8").splitlines()
    return {line for line in lines if line and not line.startswith("#")}


def test_no_formula_is_made_that_nothing_calls() -> None:
    assert not _unused() - _listed(), "call it, or delete it"


def test_what_is_used_or_gone_leaves_the_list() -> None:
    assert not _listed() - _unused(), "take these out of unused.txt"


def test_the_room_is_read() -> None:
    """A formula that is called by name, and one that only another formula calls, count as used."""
    assert len(_formulas()) > 150
    assert not {"electric.electronics.supply_limit", "electric.conductor.awg_diameter"} & _unused()
