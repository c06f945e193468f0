"""A build without the words that only its own sheet shows: what a comparison is made from.

Words that were left out cannot be read, so an edit among them makes no comparison anew.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from builder.diagnostics.where import KeyPath
from builder.model.build import Build

# Keys of build.yaml that only the pages of a build itself read.
_WORDS: Mapping[str, Any] = {
    "summary": "",
    "hero": None,
    "photos": (),
    "questions": (),
    "guide_on_paper": False,
    "recording": None,
    "chapters": (),
    "files": (),
}


def is_aside(path: KeyPath) -> bool:
    """Whether what stands there is left out."""
    return path[:1] != () and path[0] in _WORDS


def tree_aside(tree: Mapping[str, Any]) -> dict[str, Any]:
    """The tree of a build's file without them."""
    return {key: value for key, value in tree.items() if key not in _WORDS}


def words_aside(build: Build) -> Build:
    """The build without them, and its bases alike."""
    source = build.source.model_copy(update=_WORDS)
    log_of = words_aside(build.log_of) if build.log_of is not None else None
    base = words_aside(build.base) if build.base is not None else None
    tree = tree_aside(build.tree)
    return replace(build, source=source, tree=tree, log_of=log_of, base=base)
