"""`based_on`: a variant holds only what differs from another build; what was measured on the base
stays there.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from builder.diagnostics.finding import Finding, Stopped, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import KeyPath, Origins, Where
from builder.load.limits import DEFAULT_LIMITS
from builder.model.trees.reading import children_of

BuildTree = dict[str, Any]

# What belongs to the one aircraft that was weighed, flown and mended; a variant never inherits it.
NOT_INHERITED = (
    "weighed",
    "flights",
    "changes",
    "incidents",
    "maintenance",
    "as_built",
    "copies",
    "accept",
    "based_on",
    "hero",
    "photos",
    "chapters",
    "recording",
    "files",
    "superseded_by",
    "retired_because",
    "status",
    "own_aircraft",
)
# How an item of a list is recognised when a variant removes it.
EDITED_BY_ITEM = {
    "wires": ("from", "to"),
    "plugs": ("from", "to"),
    "steps": ("id",),
    "screws": ("place",),
    "questions": ("ask",),
    "extra_mass": ("what",),
}


@dataclass(frozen=True)
class Merged:
    """A build's tree after its bases were merged in, and which file each value came from."""

    tree: BuildTree
    origins: Origins
    chain: tuple[str, ...]


def _chain(name: str, trees: Mapping[str, BuildTree], most: int) -> tuple[str, ...]:
    """The build and its bases, nearest first; a cycle, an unknown base or too long a chain stops."""
    chain = [name]
    while (base := trees[chain[-1]].get("based_on")) is not None:
        here = Where(f"{chain[-1]}/build.yaml", ("based_on",))
        if not isinstance(base, str) or base not in trees:
            known = [n for n in trees if n not in chain]
            problem = f"This build is based on {base!r}, which is not a build here."
            raise Stopped(
                [mistake("data/no-such-build", problem, did_you_mean(str(base), known), here)]
            )
        if base in chain:
            shown = " → ".join([*chain[chain.index(base) :], base])
            problem = f"These builds are based on each other: {shown}."
            raise Stopped(
                [
                    mistake(
                        "data/circle-of-bases", problem, "Take based_on out of one of them.", here
                    )
                ]
            )
        if len(chain) >= most:
            problem = f"This build is based on a base that is based on a base, over {most} deep."
            raise Stopped(
                [
                    mistake(
                        "data/too-large",
                        problem,
                        "Base it on one that is nearer to the first.",
                        here,
                    )
                ]
            )
        chain.append(base)
    return tuple(chain)


def _fits(item: object, wanted: Mapping[str, object]) -> bool:
    """Whether an item of a list has all these fields so."""
    return isinstance(item, dict) and all(item.get(f) == v for f, v in wanted.items())


def _edit_list(
    base: list[Any],
    edit: BuildTree,
    key: str,
    at: Where,
    moved: dict[KeyPath, Where],
    path: KeyPath,
) -> list[Any]:
    """A list edited by `{remove: [...], add: [...]}`; moved tells where each item now comes from."""
    identity = EDITED_BY_ITEM.get(key)
    unknown = set(edit) - {"add", "remove"}
    if identity is None or unknown:
        what = (
            f"{sorted(unknown)[0]!r} is not a key"
            if unknown
            else f"{key!r} cannot be edited by add and remove"
        )
        raise Stopped(
            [
                mistake(
                    "data/unknown-key",
                    f"{what} here.",
                    "Use add and remove, or give the whole list.",
                    at,
                )
            ]
        )
    kept = [(i, item) for i, item in enumerate(base)]
    for j, gone in enumerate(edit.get("remove") or []):
        wanted = gone if isinstance(gone, dict) else {identity[0]: gone}
        match = [k for k in kept if _fits(k[1], wanted)]
        if not match:
            known = [str(k[1].get(identity[0])) for k in kept if isinstance(k[1], dict)]
            text = ", ".join(f"{f}: {v}" for f, v in wanted.items())
            words = f"The base has no {key} with {text}."
            hint = did_you_mean(str(next(iter(wanted.values()))), known)
            raise Stopped([mistake("data/nothing-to-remove", words, hint, at.at("remove", j))])
        kept = [k for k in kept if k not in match]
    out: list[Any] = []
    origin_of = {i: moved.get((*path, i)) for i, _ in enumerate(base)}
    old = {p: w for p, w in moved.items() if p[: len(path)] == path and len(p) > len(path)}
    for p in old:
        del moved[p]
    for i, item in kept:
        where = origin_of[i]
        if where is not None:
            moved[(*path, len(out))] = where
        out.append(item)
    for j, item in enumerate(edit.get("add") or []):
        moved[(*path, len(out))] = at.at("add", j)
        out.append(item)
    return out


def _merge(
    base: BuildTree, over: BuildTree, file: str, at: KeyPath, moved: dict[KeyPath, Where]
) -> BuildTree:
    """`over` laid on `base`: groups key by key, lists and values whole; the word `none` takes a key
    out.
    """
    out = dict(base)
    for key, value in over.items():
        path, where = (*at, key), Where(file, (*at, key))
        below = base.get(key)
        if value == "none" and key in base and isinstance(below, dict):
            del out[key]
        elif isinstance(value, dict) and isinstance(below, list):
            out[key] = _edit_list(below, value, key, where, moved, path)
        elif (
            isinstance(value, dict)
            and isinstance(below, dict)
            and "use" in value
            and value["use"] != below.get("use")
        ):
            kept = {
                k: v
                for k, v in below.items()
                if k not in ("use", "note", "price", "alternatives", "each_weighed")
            }
            out[key] = _merge(kept, value, file, path, moved)
        elif isinstance(value, dict) and isinstance(below, dict):
            out[key] = _merge(below, value, file, path, moved)
        else:
            for p in [p for p in moved if p[: len(path)] == path]:
                del moved[p]
            moved[path] = where
            out[key] = value
    return out


def _rooted(tree: BuildTree, file: str) -> dict[KeyPath, Where]:
    """Where every value of a base's tree stands, down to the items of lists."""
    moved: dict[KeyPath, Where] = {}

    def note(node: Any, path: KeyPath) -> None:
        moved[path] = Where(file, path)
        for step, child in children_of(node):
            if isinstance(child, dict | list) or len(path) < 3:
                note(child, (*path, step))

    for key, child in tree.items():
        note(child, (key,))
    return moved


def _leave_pieces(tree: BuildTree, moved: dict[KeyPath, Where], other: bool) -> None:
    """Readings of single pieces stay with the aircraft that the pieces are on; what somebody owns
    stays with the one who does, where a variant is another aircraft.
    """
    left = ("each_weighed", "owned") if other else ("each_weighed",)
    parts = tree.get("parts")
    if isinstance(parts, dict):
        tree["parts"] = {
            k: ({n: v for n, v in use.items() if n not in left} if isinstance(use, dict) else use)
            for k, use in parts.items()
        }
        for p in [p for p in moved if p[:1] == ("parts",) and p[2:3] and p[2] in left]:
            del moved[p]


def _leave_tests(tree: BuildTree, moved: dict[KeyPath, Where]) -> None:
    """That somebody tried the fail-safe is true of the aircraft on which it was tried."""
    setup = tree.get("setup")
    fail_safe = setup.get("fail_safe") if isinstance(setup, dict) else None
    if not isinstance(setup, dict) or not isinstance(fail_safe, dict):
        return
    untested = {k: v for k, v in fail_safe.items() if k != "tested"}
    tree["setup"] = {**setup, "fail_safe": untested}
    moved.pop(("setup", "fail_safe", "tested"), None)


def resolve(
    name: str, trees: Mapping[str, BuildTree], most: int = DEFAULT_LIMITS.bases
) -> tuple[Merged | None, tuple[Finding, ...]]:
    """One build with all that it takes from its bases."""
    file = f"{name}/build.yaml"
    try:
        chain = _chain(name, trees, most)
        if len(chain) == 1:
            return Merged(trees[name], Origins(Where(file)), chain), ()
        far = chain[-1]
        tree, moved = dict(trees[far]), _rooted(trees[far], f"{far}/build.yaml")
        for child in reversed(chain[:-1]):
            for key in NOT_INHERITED:
                tree.pop(key, None)
                for p in [p for p in moved if p[:1] == (key,)]:
                    del moved[p]
            other = str(trees[child].get("own_aircraft", "")).lower() in ("yes", "true")
            _leave_pieces(tree, moved, other)
            if other:
                _leave_tests(tree, moved)
            tree = _merge(tree, trees[child], f"{child}/build.yaml", (), moved)
        return Merged(tree, Origins(Where(file), moved), chain), ()
    except Stopped as stop:
        return None, stop.findings
