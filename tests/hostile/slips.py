"""One number of the demo's sources written wrong, and what becomes of the build that it belongs to.

Documents are parsed once; a slip changes one value of a tree, so that a line and a column stay what they were.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from math import isfinite
from pathlib import Path as File
from typing import Any

from builder.compute.figure import derivations
from builder.diagnostics.show import as_text
from builder.diagnostics.where import Path
from builder.load.files import Loaded, load
from builder.load.yaml_nodes import Document
from builder.model.build import Build
from builder.model.workspace import Workspace, read_workspace
from builder.pages.bench_sheet import bench_sheet
from builder.pages.build_page import build_page, work_page
from builder.pages.figures_data import figures_data
from builder.pages.numbers_page import numbers_page
from builder.pages.site_pages import site_pages
from builder.pages.summarise import summarise
from builder.pipeline.check import judged, judged_alone
from builder.render.csv_and_text import parts_csv
from builder.render.html import Renderer, template_texts
from tests.workspace_edits import ROOT

_STARTS_AS_NUMBER = re.compile(r"\s*[+-]?(?:\d|\.\d).{0,80}")
_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?![\d.])")
_NO_NUMBER = re.compile(r"(?<![\w-])(?:nan|[+-]?inf|infinity)(?![\w-])", re.IGNORECASE)
_TAGS = re.compile(r"<style.*?</style>|<script.*?</script>", re.DOTALL)


@dataclass(frozen=True)
class Slip:
    """A value of a file with another number in it."""

    file: str
    path: Path
    before: str
    after: str

    def __str__(self) -> str:
        return f"{self.file}: {'.'.join(map(str, self.path))}: {self.before!r} -> {self.after!r}"


def _leaves(tree: Any, path: Path) -> Iterator[tuple[Path, str]]:
    if isinstance(tree, str):
        yield path, tree
    children = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for step, child in children:
        yield from _leaves(child, (*path, step))


def numbers(document: Document) -> Iterator[tuple[Path, str, re.Match[str]]]:
    """Every number of every value that begins as a quantity does."""
    for path, text in _leaves(document.tree, ()):
        if _STARTS_AS_NUMBER.fullmatch(text):
            for match in _NUMBER.finditer(text):
                yield path, text, match


def slip(document: Document, path: Path, text: str, match: re.Match[str], number: str) -> Slip:
    """The value with this number in the place of that one."""
    return Slip(document.file, path, text, text[: match.start()] + number + text[match.end() :])


def _with(tree: Any, path: Path, value: str) -> Any:
    """A copy of a tree, along this path only, with another value at its end."""
    if not path:
        return value
    copy = dict(tree) if isinstance(tree, dict) else list(tree)
    copy[path[0]] = _with(tree[path[0]], path[1:], value)
    return copy


class Demo:
    """The demo workspace, parsed once."""

    def __init__(self, root: File = ROOT) -> None:
        self.loaded = load(root)
        self.model = read_workspace(self.loaded)
        self.documents = {file: self.loaded.documents[file] for file in self.loaded.documents}
        assert not self.model.findings
        self.renderer = Renderer(template_texts(None))

    @cache  # noqa: B019 - one of it lives as long as its tests
    def used_by(self, name: str) -> frozenset[str]:
        """Parts of the shelf that a build may use."""
        return frozenset(self.model.builds[name].shelf)

    def build_of(self, changed: Slip) -> str:
        """The build that a slip shows in: its own, or the first that uses the part; else the first of all."""
        folder = changed.file.split("/")[0]
        if folder in self.model.names:
            return folder
        users = [n for n in self.model.names if changed.path and changed.path[0] in self.used_by(n)]
        return users[0] if users else self.model.names[0]

    def read(self, changed: Slip) -> tuple[str, Loaded, Workspace]:
        """The build that a slip shows in, its bases, the parts that they use and the changed one, read anew."""
        name = self.build_of(changed)
        chain = self.model.builds[name].chain
        parts = frozenset().union(*(self.used_by(n) for n in chain)) | {changed.path[0]}
        documents = {"site.yaml": self.documents["site.yaml"]}
        documents |= {f"{n}/build.yaml": self.documents[f"{n}/build.yaml"] for n in chain}
        for file in self.loaded.shelf_files:
            whole = self.documents[file]
            assert isinstance(whole.tree, dict)
            documents[file] = replace(whole, tree={k: v for k, v in whole.tree.items() if k in parts})
        document = documents[changed.file]
        documents[changed.file] = replace(document, tree=_with(document.tree, changed.path, changed.after))
        loaded = replace(self.loaded, documents=documents, findings=(), names=chain)
        return name, loaded, read_workspace(loaded)

    def fate(self, changed: Slip, *, whole: bool = True) -> str:
        """`said` or `drawn`. AssertionError for a mistake without a place or a number that is none on a page.

        What goes wrong inside comes out as it is. What is not `whole` is drawn without its alternatives and numbers page.
        """
        name, loaded, model = self.read(changed)
        if not model.findings:
            self.draw(model.builds[name], model, changed, whole=whole)
            return "drawn"
        for finding in model.findings:
            place = loaded.locate(finding.where) if finding.where is not None else None
            assert place is not None and place.text, f"{changed}: no place: {finding.message}"
            assert finding.message and finding.hint and as_text(finding, loaded), changed
        here = [w.file for f in model.findings for w in (f.where, *f.see) if w is not None]
        assert changed.file in here, f"{changed}: nothing is said of the file itself"
        return "said"

    def draw(self, build: Build, model: Workspace, changed: object, *, whole: bool) -> None:
        """What a publish makes of a build, but its PDF, is made and holds numbers only."""
        sheet = judged(build, draft=True) if whole else judged_alone(build, draft=True)
        site, figures = site_pages(model.site), sheet.figures
        for figure in derivations(figures):
            assert isfinite(figure.value) and isfinite(figure.spread), f"{changed}: {figure.key} is {figure.value}"
        pages = [build_page(sheet), *([work_page(sheet), numbers_page(sheet, figures)] if whole else [])]
        texts = [_TAGS.sub("", self.renderer.page(page, site).decode()) for page in pages]
        texts.append(parts_csv(sheet).decode())
        bench_sheet(sheet, site, "")
        summarise(sheet)
        if whole:
            texts.append(str(figures_data(sheet, figures)))
        for text in texts:
            odd = _NO_NUMBER.search(text)
            assert odd is None, f"{changed}: a page says {text[max(0, odd.start() - 60) : odd.end() + 20]!r}"


def variants(match: re.Match[str]) -> Mapping[str, str]:
    """The number as it may slip: nothing, tiny, huge, below zero, a digit less, a digit more."""
    value = float(match[0])
    tenth = f"{value / 10:.12g}"
    return {
        "zero": "0",
        "tiny": f"{value * 1e-9:.12g}",
        "huge": f"{value * 1e9:.12g}",
        "negative": f"-{match[0]}",
        "tenth": tenth,
        "tenfold": f"{value * 10:.12g}",
    }
