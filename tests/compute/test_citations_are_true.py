"""A value that cites a line was written there by somebody; one that nobody wrote cites no file and says
what it rests on. Read back from the files by a plain walk.
"""

from collections.abc import Iterator
from typing import Any

from builder.compute.figures.collect import all_figures, all_within
from builder.compute.figures.figure import Figure
from builder.diagnostics.where import Where
from builder.pages.derivations.derivation import origin
from builder.pipeline.check import Checked


def _leaves(demo: Checked) -> Iterator[tuple[str, Figure]]:
    for name, sheet in demo.sheets.items():
        found: dict[str, Figure] = {}
        for figure in all_figures(all_within(sheet.results)):
            found |= figure.leaves
        for leaf in found.values():
            yield name, leaf


def _written(demo: Checked, where: Where) -> Any:
    """What stands at a place of a file; a LookupError where nothing does."""
    tree: Any = demo.loaded.documents[where.file].tree
    for step in where.path:
        tree = tree[step]
    return tree


def test_a_cited_line_is_there(demo: Checked) -> None:
    seen = 0
    for name, leaf in _leaves(demo):
        if leaf.where is None:
            continue
        said = _written(demo, leaf.where)
        assert said not in (None, "", [], {}), (name, leaf.key)
        seen += 1
    assert seen > 500


def test_a_default_is_cited_as_one(demo: Checked) -> None:
    """Words that name no file of the workspace, and the kind of source: a norm, common practice, from
    memory.
    """
    files = tuple(demo.loaded.documents)
    seen = 0
    for name, leaf in _leaves(demo):
        if leaf.where is not None:
            continue
        said = origin(leaf)
        assert said and not any(file in said for file in files), (name, leaf.key, said)
        seen += 1
    assert seen > 50
