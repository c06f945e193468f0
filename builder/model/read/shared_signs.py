"""Prices in `$` where the workspace counts in another dollar: which of the two is meant is asked."""

from typing import Any

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import KeyPath, Origins
from builder.model.trees.reading import children_of
from builder.model.values.price_text import shared_sign


def shared_signs(tree: Any, origins: Origins, currency: str) -> tuple[Finding, ...]:
    """A mistake for each price whose sign is the workspace's own currency and the US dollar's."""
    found: list[Finding] = []

    def look(node: Any, path: KeyPath) -> None:
        if isinstance(node, str) and shared_sign(node, currency):
            amount = node.replace("US$", "").replace("$", "").strip()
            problem = f"{node!r} can be read as '{amount} USD' or as '{amount} {currency}'."
            hint = "Write the one that you mean."
            found.append(mistake("data/two-readings", problem, hint, origins.where(path)))
        for step, child in children_of(node):
            look(child, (*path, step))

    look(tree, ())
    return tuple(found)
