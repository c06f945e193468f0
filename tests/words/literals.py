"""The texts that stand in the code and are said to somebody: literals, not docstrings or patterns."""

import ast
from collections.abc import Iterator
from pathlib import Path

from tests.words.reading import Block

# Calls whose texts are patterns, keys or code, not words.
UNSAID = {"compile", "fullmatch", "match", "search", "sub", "split", "import_module"}


def _docstrings(tree: ast.Module) -> set[int]:
    found = set()
    for node in ast.walk(tree):
        body = getattr(node, "body", None)
        if not isinstance(body, list) or not body:
            continue
        first = body[0]
        if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant):
            found.add(id(first.value))
    return found


def _said(node: ast.expr) -> str:
    """A literal's text; what is put into it when it is said is a mark."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.JoinedStr):
        return "".join(_said(v) if isinstance(v, ast.Constant) else "…" for v in node.values)
    return ""


def _texts(node: ast.AST, skip: set[int]) -> Iterator[tuple[int, str]]:
    if id(node) in skip:
        return
    name = ""
    if isinstance(node, ast.Call):
        name = getattr(node.func, "attr", getattr(node.func, "id", ""))
    if name in UNSAID or (isinstance(node, ast.Raise) and _is_code_error(node)):
        return
    if isinstance(node, ast.JoinedStr | ast.Constant):
        text = _said(node)
        if " " in text.strip():
            yield node.lineno, text
        return
    for child in ast.iter_child_nodes(node):
        yield from _texts(child, skip)


def _is_code_error(node: ast.Raise) -> bool:
    """An error for programmers: asked for wrongly inside, never shown as a message."""
    called = node.exc.func if isinstance(node.exc, ast.Call) else None
    return isinstance(called, ast.Name) and called.id in ("ValueError", "TypeError", "KeyError")


def literals(folder: Path) -> Iterator[Block]:
    """Every text of more than one word in the code below a folder."""
    for file in sorted(folder.rglob("*.py")):
        tree = ast.parse(file.read_text("utf-8"))
        for line, text in _texts(tree, _docstrings(tree)):
            yield Block(f"{file.relative_to(folder.parent)}:{line}", "literal", text)
