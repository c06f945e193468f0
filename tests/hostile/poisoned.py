"""A workspace of three demo builds with words of a stranger in every text field that takes any
words.
"""

import json
from collections.abc import Callable, Mapping
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from builder.load.characters import unfit
from builder.load.files import Loaded
from builder.load.limits import DEFAULT_LIMITS
from builder.load.yaml_nodes import Document, read_yaml
from builder.model.read.workspace import read_workspace
from tests.hostile.every_text import Path as Steps
from tests.hostile.every_text import free_fields, put
from tests.workspace_edits import ROOT

BUILDS = ("curlew", "dipper", "pipit")
# Groups that the demo builds lack, so that their texts are there as well.
MORE: dict[str, Any] = {
    "chapters": [{"at": "0:10", "text": "x"}],
    "incidents": [{"date": "2026-10-05", "what": "x", "note": "x"}],
    "maintenance": [{"date": "2026-10-05", "what": "x", "note": "x"}],
    "as_built": [{"date": "2026-10-05", "text": "x"}],
    "questions": [{"ask": "x", "answer": "x"}],
    "changes": [{"date": "2026-10-05", "text": "x"}],
    "accept": [{"rule": "pack/discharge-limit", "at": "packs", "because": "x"}],
}
# Texts that have to name what is there: refused when a publish looks for it (tests/hostile/test_chapters.py).
NAME_WHAT_IS_THERE = {"GivenFile.file", "Chapter.steps", "Change.chapters"}
Words = Callable[[int, str], str]  # which place it is, and its class.field


@dataclass(frozen=True)
class Fields:
    """The trees of the source files, and the places of every free text field."""

    trees: Mapping[str, Any]
    places: Mapping[str, list[tuple[str, Steps]]]

    def write(self, workspace: Path, words: Words) -> int:
        """Writes the source files with these words in every place; how many places there are."""
        trees = deepcopy(dict(self.trees))
        count = 0
        for name, found in self.places.items():
            for file, path in found:
                put(trees[file], path, words(count, name))
                count += 1
        for file, tree in trees.items():
            target = workspace / "builds" / file
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(json.dumps(tree, ensure_ascii=False), "utf-8")
        return count


def _without_nothing(tree: Any) -> Any:
    if isinstance(tree, dict):
        return {k: _without_nothing(v) for k, v in tree.items() if v is not None}
    return [_without_nothing(v) for v in tree] if isinstance(tree, list) else tree


def _is_read(trees: Mapping[str, Any]) -> bool:
    documents = {k: Document(k, v, {}, "", "") for k, v in trees.items()}
    return not read_workspace(
        Loaded(Path("/nowhere"), documents, (), BUILDS, DEFAULT_LIMITS)
    ).findings


def fields() -> Fields:
    """Every text field of the demo workspace, and of what could be added to it, that takes any
    words.
    """
    trees: dict[str, Any] = {}
    for file in (
        "site.yaml",
        *(f"shelf/{p.name}" for p in sorted((ROOT / "builds" / "shelf").glob("*.yaml"))),
    ):
        trees[file] = (ROOT / "builds" / file).read_text("utf-8")
    for name in BUILDS:
        trees[f"{name}/build.yaml"] = (ROOT / "builds" / name / "build.yaml").read_text("utf-8")
    trees = {
        f: _without_nothing(read_yaml(f, text, "", DEFAULT_LIMITS)[0].tree)
        for f, text in trees.items()
    }
    trees["site.yaml"]["compare"] = [["dipper", "pipit"], ["pipit", "curlew"]]
    trees["site.yaml"]["at_most"] = {"file_kilobytes": "9000"}  # many strangers at once
    for key, value in MORE.items():
        trees["dipper/build.yaml"].setdefault(key, value)
    assert _is_read(trees)

    def is_free(file: str, path: Steps) -> bool:
        changed = {**trees, file: deepcopy(trees[file])}
        put(changed[file], path, "zz <z> &amp; 'z'")  # what words may be and no name
        return _is_read(changed)

    found = free_fields(trees, is_free)
    return Fields(trees, {name: at for name, at in found.items() if name not in NAME_WHAT_IS_THERE})


def fit(payloads: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """The payloads that a text may hold; the others are refused when they are read."""
    return tuple(p for group in payloads.values() for p in group if unfit(p) is None and p.strip())


def pictures(workspace: Path) -> None:
    """The pictures that the builds name, their chapters, and the files that they give along."""
    for name in BUILDS:
        own = ROOT / "builds" / name
        for file in (*own.glob("*.svg"), *own.glob("guide/*"), *own.glob("files/*")):
            there = workspace / "builds" / name / file.relative_to(own)
            there.parent.mkdir(parents=True, exist_ok=True)
            there.write_bytes(file.read_bytes())
