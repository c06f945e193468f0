"""A build that comes with Benchleaf as the place in which a new part's answers are tried: all else is
known there.
"""

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from builder.load.files import Loaded
from builder.load.limits import DEFAULT_LIMITS
from builder.load.starters import SIZES, read_starter
from builder.model.read.workspace import read_workspace
from builder.pipeline.begin.start import document_of
from builder.pipeline.sources.workbench import Workbench, put

_NAME = "tried"
_FIRST = ("3-inch", "5-inch", "7-inch", "2-inch")


@cache
def _bench(size: str) -> Workbench:
    starter = read_starter(size)
    texts = {f"shelf/{file}": text for file, text in starter.shelf.items()}
    texts |= {"site.yaml": starter.site, f"{_NAME}/build.yaml": starter.build}
    documents = {file: document_of(file, text) for file, text in texts.items()}
    loaded = Loaded(Path(), documents, (), (_NAME,), DEFAULT_LIMITS)
    return Workbench.of(loaded, read_workspace(loaded), _NAME)


def bench_with(kind: str) -> tuple[Workbench, str, str] | None:
    """A build that has a part of a kind, with the file and the name of that part; one to which it is
    added where none has it, and None where no such part comes with Benchleaf.
    """
    for size in (*_FIRST, *(s for s in SIZES if s not in _FIRST)):
        bench = _bench(size)
        build = bench.model.builds[_NAME]
        names = [*(f.shelf for f in build.parts.values()), *(p.shelf for p in build.packs.values())]
        used = (build.shelf[name] for name in names)
        entry = next((e for e in used if e.part.kind == kind), None)
        if entry is not None:
            return bench, entry.where.file, entry.name
    return _with_one_more(_bench(_FIRST[0]), kind)


def _with_one_more(bench: Workbench, kind: str) -> tuple[Workbench, str, str] | None:
    """A build with a part of a kind that it lacks."""
    shelf = bench.model.shelf
    entry = next((e for e in shelf.values() if e.part.kind == kind), None)
    if entry is None:
        return None
    file = f"{_NAME}/build.yaml"
    tree = put(bench.tree(file), ("parts", "one-more"), {"use": entry.name})
    document = replace(bench.loaded.documents[file], tree=tree, digest=f"with {kind}")
    loaded = replace(bench.loaded, documents={**bench.loaded.documents, file: document})
    model = read_workspace(loaded, bench.model.known)
    if _NAME not in model.builds:
        return None
    return Workbench.of(loaded, model, _NAME), entry.where.file, entry.name


def shelf_of_starters(kind: str) -> tuple[Any, ...]:
    """The parts of a kind that come with Benchleaf, as they are written."""
    loaded = _bench(_FIRST[0]).loaded
    trees = (loaded.documents[file].tree for file in loaded.shelf_files)
    entries = (e for tree in trees if isinstance(tree, dict) for e in tree.values())
    return tuple(e for e in entries if isinstance(e, dict) and e.get("kind") == kind)
