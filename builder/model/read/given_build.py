"""A build and parts that somebody gave, as the beginning of one's own.

What is true of the giver's aircraft and pieces only comes as words. Nothing of it is computed with.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from builder.model.read.variants import NOT_INHERITED

_LEFT_OUT = frozenset(
    (
        *NOT_INHERITED,
        "title",
        "summary",
        "author",
        "licence",
        "give_source",
        "invented",
        "origin",
        "questions",
        "changes",
    )
)
_OF_ONE_PIECE = ("each_weighed", "owned")
_ONES_OWN = ("bought", "cycles", "serial_number")
_MOST_LINES = 60
Tree = Mapping[str, Any]


def given_build(tree: Tree, title: str, given_title: str, origin: list[Tree]) -> dict[str, Any]:
    """The tree of a new, planned build from the resolved tree of a given one."""
    rest = {k: _untested(v) for k, v in tree.items() if k not in _LEFT_OUT}
    parts = rest.get("parts")
    if isinstance(parts, Mapping):
        rest["parts"] = {k: _use(use) for k, use in parts.items()}
    summary = f"Planned after {given_title}; nothing of it is built, weighed or flown yet."
    head = {"title": title, "summary": summary, "status": "planned"}
    return {**head, **rest, "origin": list(origin)}


def _use(use: Any) -> Any:
    if not isinstance(use, Mapping):
        return use
    return {k: v for k, v in use.items() if k not in _OF_ONE_PIECE}


def _untested(node: Any) -> Any:
    """A tree without what was tested on another aircraft."""
    if isinstance(node, Mapping):
        return {k: _untested(v) for k, v in node.items() if k != "tested"}
    return [_untested(item) for item in node] if isinstance(node, list) else node


def given_part(tree: Tree, giver: str) -> dict[str, Any]:
    """A part as it was given: what was measured is measured by another, and what is of one piece
    stays with the giver.
    """
    out = {k: v for k, v in tree.items() if k not in _ONES_OWN}
    mass = out.get("mass")
    if isinstance(mass, Mapping) and "measured" in mass and "measured_by" not in mass:
        out["mass"] = {**mass, "measured_by": giver}
    return out


def history_of(tree: Tree) -> list[str]:
    """What a giver said of their own aircraft, a sentence each."""
    lines = list(_history(tree))
    more = len(lines) - _MOST_LINES
    return [*lines[:_MOST_LINES], *([f"And {more} more lines."] if more > 0 else [])]


def _history(tree: Tree) -> Iterator[str]:
    if tree.get("status"):
        yield f"Status: {tree['status']}."
    for one in _each(tree, "weighed"):
        yield _line(f"Weighed, {one.get('what', '?')}: {one.get('mass', '?')}", one)
    flights = _each(tree, "flights")
    if flights:
        days = sorted(str(one.get("date", "?")) for one in flights)
        yield f"Flights in its log: {len(flights)}, from {days[0]} to {days[-1]}."
    for key, words in (
        ("incidents", "Broke"),
        ("maintenance", "Maintained"),
        ("as_built", "As built"),
    ):
        for one in _each(tree, key):
            said = ", ".join(str(v) for k, v in one.items() if k != "date" and isinstance(v, str))
            yield _line(f"{words}: {said}", one)
    for one in _each(tree, "accept"):
        yield f"Accepted {one.get('rule', '?')} at {one.get('at', '?')}: {one.get('because', '?')}"
    parts = tree.get("parts")
    for key, use in parts.items() if isinstance(parts, Mapping) else ():
        yield from _of_pieces(key, use)
    yield from (f"Tested, {path}: {said}" for path, said in _tested(tree, ""))


def _of_pieces(key: str, use: Any) -> Iterator[str]:
    if not isinstance(use, Mapping):
        return
    readings = use.get("each_weighed")
    if isinstance(readings, list):
        yield f"Pieces of {key} weighed: {', '.join(map(str, readings))}."


def _each(tree: Tree, key: str) -> list[Tree]:
    listed = tree.get(key)
    return [x for x in listed if isinstance(x, Mapping)] if isinstance(listed, list) else []


def _line(said: str, one: Tree) -> str:
    return f"{said} ({one['date']})." if one.get("date") else f"{said}."


def _tested(node: Any, path: str) -> Iterator[tuple[str, str]]:
    if isinstance(node, Mapping):
        for key, value in node.items():
            if key == "tested" and isinstance(value, str):
                yield path.strip("."), value
            yield from _tested(value, f"{path}.{key}")
    elif isinstance(node, list):
        for i, item in enumerate(node):
            yield from _tested(item, f"{path}.{i + 1}")
