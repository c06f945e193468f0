"""Every folder of the package is a room that a person can look over, and each name in it stands for
one thing.

Rooms of a stage know each other one way only: if pages of comparisons take from tables, tables take
nothing from them.
"""

import ast
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import networkx

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "builder"
MOST_FILES = 20
# Rules are looked for by code, one file each; each of them has a check, and the commands have the
# names that are typed.
ONE_FILE_A_RULE = PACKAGE / "rules"
COMMON = {"add", "parts", "report", "check", "SEVERITY", "SIGNAL", "YIELDS_TO"}


def _files() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def _room(file: Path) -> str:
    return ".".join(file.parent.relative_to(ROOT).parts)


def _imported(file: Path) -> Iterator[str]:
    """Rooms that a file takes something from."""
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if not isinstance(node, ast.ImportFrom) or not (node.module or "").startswith("builder."):
            continue
        for name in [node.module, *(f"{node.module}.{alias.name}" for alias in node.names)]:
            path = ROOT.joinpath(*str(name).split(".")).with_suffix(".py")
            if path.exists():
                yield _room(path)


def test_no_folder_holds_more_than_a_person_looks_over() -> None:
    counts: dict[Path, int] = defaultdict(int)
    for file in _files():
        if file.name != "__init__.py" and not file.is_relative_to(ONE_FILE_A_RULE):
            counts[file.parent] += 1
    assert len(counts) > 40
    assert {str(folder): count for folder, count in counts.items() if count > MOST_FILES} == {}


def test_every_folder_of_code_says_what_it_holds() -> None:
    for folder in {file.parent for file in _files()}:
        tree = ast.parse((folder / "__init__.py").read_text("utf-8"))
        assert ast.get_docstring(tree), folder


def test_rooms_of_a_stage_know_each_other_one_way() -> None:
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    for file in _files():
        mine = _room(file)
        stage = mine.split(".")[:2]
        graph.add_edges_from(
            (mine, other)
            for other in _imported(file)
            if other != mine and other.split(".")[:2] == stage
        )
    assert graph.number_of_edges() > 60
    tangled = [
        sorted(room) for room in networkx.strongly_connected_components(graph) if len(room) > 1
    ]
    assert tangled == []


def _public(file: Path) -> Iterator[str]:
    """Public classes, functions and aliases of types that a file makes."""
    for node in ast.parse(file.read_text("utf-8")).body:
        if isinstance(node, ast.ClassDef | ast.FunctionDef):
            name = node.name
        elif isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            name = node.targets[0].id
        else:
            continue
        if not name.startswith("_") and not name.isupper():
            yield name


def test_no_public_name_stands_for_two_things() -> None:
    found: dict[str, set[str]] = defaultdict(set)
    for file in _files():
        for name in _public(file):
            found[name].add(str(file.relative_to(ROOT)))
    assert len(found) > 1400
    assert {
        name: sorted(files)
        for name, files in found.items()
        if len(files) > 1 and name not in COMMON
    } == {}
