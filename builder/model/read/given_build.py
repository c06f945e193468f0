"""A build and parts that somebody gave, as the beginning of one's own.

What is true of the giver's aircraft and pieces only comes as words. Nothing of it is computed with.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from builder.model.trees.variants import NOT_INHERITED

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
_LOGS = {"incidents": "Broke", "maintenance": "Maintained", "as_built": "As built"}
SourceTree = Mapping[str, Any]


def given_build(
    tree: SourceTree, title: str, given_title: str, origin: list[SourceTree]
) -> dict[str, Any]:
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


def given_part(tree: SourceTree, giver: str) -> dict[str, Any]:
    """A part as it was given: what was measured is measured by another, and what is of one piece
    stays with the giver.
    """
    out = {k: v for k, v in tree.items() if k not in _ONES_OWN}
    mass = out.get("mass")
    if isinstance(mass, Mapping) and "measured" in mass and "measured_by" not in mass:
        out["mass"] = {**mass, "measured_by": giver}
    return out


def history_of(tree: SourceTree) -> list[str]:
    """What a giver said of their own aircraft, a sentence each."""
    lines = list(_history(tree))
    more = len(lines) - _MOST_LINES
    if more <= 0:
        return lines
    shown = lines[:_MOST_LINES]
    return [*shown, f"And {more} more lines."]


def _history(tree: SourceTree) -> Iterator[str]:
    if tree.get("status"):
        yield f"Status: {tree['status']}."
    for one in _each(tree, "weighed"):
        what, mass = (one.get(key, "?") for key in ("what", "mass"))
        yield _line(f"Weighed, {what}: {mass}", one)
    flights = _each(tree, "flights")
    if flights:
        days = sorted(str(one.get("date", "?")) for one in flights)
        first, last = days[0], days[-1]
        yield f"Flights in its log: {len(flights)}, from {first} to {last}."
    for key, words in _LOGS.items():
        for one in _each(tree, key):
            texts = {k: v for k, v in one.items() if isinstance(v, str)}
            texts.pop("date", None)
            said = ", ".join(texts.values())
            yield _line(f"{words}: {said}", one)
    for one in _each(tree, "accept"):
        rule, at, because = (one.get(key, "?") for key in ("rule", "at", "because"))
        yield f"Accepted {rule} at {at}: {because}"
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


def _each(tree: SourceTree, key: str) -> list[SourceTree]:
    listed = tree.get(key)
    return [x for x in listed if isinstance(x, Mapping)] if isinstance(listed, list) else []


def _line(said: str, one: SourceTree) -> str:
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
