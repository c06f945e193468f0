"""Pages word what was computed and judged before: no file of that stage imports what computes or
judges a whole build.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow  # takes long

ENTRIES = {
    ("builder.compute.compute", "compute"),
    ("builder.compute.compute", "assemble"),
    ("builder.rules.judge", "judge"),
}


def _module(root: Path, path: Path) -> str:
    return ".".join(path.relative_to(root).with_suffix("").parts)


def _imported(path: Path) -> Iterator[tuple[str, str]]:
    """Each (module, name) that a file imports, wherever in it; a module that is imported whole has
    the name ''.
    """
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom):
            yield from ((node.module or "", alias.name) for alias in node.names)
        elif isinstance(node, ast.Import):
            yield from ((alias.name, "") for alias in node.names)


def _functions(path: Path) -> dict[str, set[str]]:
    """The functions at the top of a file, each with the names that it uses."""
    tree = ast.parse(path.read_text("utf-8"))
    defs = [n for n in tree.body if isinstance(n, ast.FunctionDef)]
    return {d.name: {n.id for n in ast.walk(d) if isinstance(n, ast.Name)} for d in defs}


def judging(root: Path) -> set[tuple[str, str]]:
    """Every function of `compute` and `rules` that computes or judges a whole build, itself or by
    one that it calls.
    """
    files = [
        p
        for stage in ("compute", "rules")
        for p in sorted((root / "builder" / stage).rglob("*.py"))
    ]
    known = {_module(root, p): (_functions(p), list(_imported(p))) for p in files}
    found = set(ENTRIES)
    while True:
        more = set(found)
        for module, (functions, imported) in known.items():
            here = {name for m, name in found if m == module} | {
                n for m, n in imported if (m, n) in found
            }
            more |= {(module, name) for name, used in functions.items() if used & here}
        if more == found:
            return found
        found = more


def breaches(root: Path) -> list[str]:
    """The imports of pages that are of such a function, or of a whole module that has one."""
    banned = judging(root)
    modules = {m for m, _ in banned}
    out = []
    for path in sorted((root / "builder" / "pages").rglob("*.py")):
        for module, name in _imported(path):
            whole = (not name and module in modules) or f"{module}.{name}" in modules
            if whole or (module, name) in banned or (name == "*" and module in modules):
                out.append(f"{path.relative_to(root)} imports {module} {name}".strip())
    return out


def test_what_tries_swaps_is_found_by_what_it_calls(root: Path) -> None:
    names = {name for _, name in judging(root)}
    assert {"judge_swap", "could_stay", "packs_could_stay", "stays", "try_alternatives"} <= names


def test_no_page_imports_it(root: Path) -> None:
    assert breaches(root) == []


@pytest.mark.parametrize(
    "line",
    [
        "from builder.rules.could_stay import Stay, could_stay",
        "from builder.rules import could_stay",
        "import builder.rules.judge",
        "def late():\n    from builder.compute.compute import assemble as made",
    ],
)
def test_an_import_of_it_is_seen(root: Path, tmp_path: Path, line: str) -> None:
    for stage in ("compute", "rules"):
        (tmp_path / "builder" / stage).parent.mkdir(exist_ok=True)
        (tmp_path / "builder" / stage).symlink_to(root / "builder" / stage)
    (tmp_path / "builder" / "pages").mkdir()
    (tmp_path / "builder" / "pages" / "page.py").write_text(f"{line}\n")
    assert len(breaches(tmp_path)) == 1
