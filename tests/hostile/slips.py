"""One number of the demo's sources written wrong, and what becomes of the build that it belongs to.

Documents are parsed once; a slip changes one value of a tree, so that a line and a column stay what
they were.
"""

import random
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from math import isfinite
from pathlib import Path as File
from typing import Any, Literal

from builder.compute.figures.figure import derivations
from builder.diagnostics.finding import Finding
from builder.diagnostics.show import as_text
from builder.diagnostics.where import KeyPath
from builder.load.files import Loaded, load
from builder.load.yaml_nodes import Document
from builder.model.build import Build
from builder.model.follow.like_packs import pack_kind
from builder.model.follow.references import follow
from builder.model.kinds import Pack
from builder.model.read.workspace import read_workspace
from builder.model.trees.variants import resolve
from builder.pages.derivations.numbers_page import numbers_page
from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.site.build_page import build_page, sheet_pages
from builder.pages.site.figures_data import figures_data
from builder.pages.site.site_pages import site_pages
from builder.pages.summaries.summarise import summarise
from builder.pipeline.check import judged, judged_alone
from builder.render.data.csv_and_text import parts_csv
from builder.render.html.page import Renderer, template_texts
from tests.workspace_edits import ROOT

_STARTS_AS_NUMBER = re.compile(r"\s*[+-]?(?:\d|\.\d).{0,80}")
_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?![\d.])")
_NO_NUMBER = re.compile(r"(?<![\w-])(?:nan|[+-]?inf|infinity)(?![\w-])", re.IGNORECASE)
_TAGS = re.compile(r"<style.*?</style>|<script.*?</script>", re.DOTALL)

# How far a build is followed: computed and judged; its sheet drawn as well; all that a publish
# makes but the PDF.
Depth = Literal["judged", "drawn", "all"]


@dataclass(frozen=True)
class Slip:
    """A value of a file with another number in it."""

    file: str
    path: KeyPath
    before: str
    after: str

    def __str__(self) -> str:
        return f"{self.file}: {'.'.join(map(str, self.path))}: {self.before!r} -> {self.after!r}"


def _leaves(tree: Any, path: KeyPath) -> Iterator[tuple[KeyPath, str]]:
    if isinstance(tree, str):
        yield path, tree
    children = (
        tree.items()
        if isinstance(tree, dict)
        else enumerate(tree)
        if isinstance(tree, list)
        else ()
    )
    for step, child in children:
        yield from _leaves(child, (*path, step))


def numbers(document: Document) -> Iterator[tuple[KeyPath, str, re.Match[str]]]:
    """Every number of every value that begins as a quantity does."""
    for path, text in _leaves(document.tree, ()):
        if _STARTS_AS_NUMBER.fullmatch(text):
            for match in _NUMBER.finditer(text):
                yield path, text, match


def slip(document: Document, path: KeyPath, text: str, match: re.Match[str], number: str) -> Slip:
    """The value with this number in the place of that one."""
    return Slip(document.file, path, text, text[: match.start()] + number + text[match.end() :])


def _with(tree: Any, path: KeyPath, value: str) -> Any:
    """A copy of a tree, along this path only, with another value at its end."""
    if not path:
        return value
    copy: Any = dict(tree) if isinstance(tree, dict) else list(tree)
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
        """The build that a slip shows in: its own, or the first that uses the part; else the first
        of all.
        """
        folder = changed.file.split("/")[0]
        if folder in self.model.names:
            return folder
        users = [n for n in self.model.names if changed.path and changed.path[0] in self.used_by(n)]
        return users[0] if users else self.model.names[0]

    def _changed(self, changed: Slip) -> Document:
        document = self.documents[changed.file]
        tree = _with(document.tree, changed.path, changed.after)
        if changed.file.startswith("shelf/"):  # the other parts say what they said before
            tree = {changed.path[0]: tree[changed.path[0]]}
        return replace(document, tree=tree)

    def read(self, changed: Slip) -> tuple[Loaded, tuple[Finding, ...], Build | None]:
        """What is wrong with the changed file or the build that uses it; without mistakes, that
        build.

        Only the file that was changed is read anew, of the shelf only the part.
        """
        document = self._changed(changed)
        loaded = replace(
            self.loaded, documents={**self.documents, changed.file: document}, findings=()
        )
        name, site, entries = self.build_of(changed), self.model.site, dict(self.model.shelf)
        if not changed.file.endswith("/build.yaml"):
            alone = read_workspace(replace(loaded, documents={changed.file: document}, names=()))
            if alone.findings:
                return loaded, alone.findings, None
            site = alone.site if changed.file == "site.yaml" else site
            entries |= alone.shelf
        trees: Any = {
            n: loaded.documents[f"{n}/build.yaml"].tree for n in self.model.builds[name].chain
        }
        merged, findings = resolve(name, trees, loaded.limits.bases)
        if merged is None or findings:
            return loaded, findings, None
        packs = [
            k
            for n, e in entries.items()
            if isinstance(e.part, Pack) and (k := pack_kind(n, e.part)) is not None
        ]
        build, findings = follow(name, merged, site, entries, frozenset(), packs, lambda used: "")
        log = self.model.builds[name].log_of
        return (
            loaded,
            findings,
            build if build is None or log is None else replace(build, log_of=log),
        )

    def fate(self, changed: Slip, depth: Depth = "all") -> str:
        """`said`, or how far it was followed. AssertionError for a mistake without a place, or what
        is no number.

        What goes wrong inside comes out as it is.
        """
        loaded, findings, build = self.read(changed)
        if build is not None:
            self.draw(build, changed, depth)
            return depth
        for finding in findings:
            place = loaded.locate(finding.where) if finding.where is not None else None
            assert place is not None and place.text, f"{changed}: no place: {finding.message}"
            assert finding.message and finding.hint and as_text(finding, loaded), changed
        here = [w.file for f in findings for w in (f.where, *f.see) if w is not None]
        assert changed.file in here, f"{changed}: nothing is said of the file itself"
        return "said"

    def draw(self, build: Build, changed: object, depth: Depth) -> None:
        """What a publish makes of a build, but its PDF, is made and holds numbers only."""
        whole = depth == "all"
        sheet = judged(build, draft=True) if whole else judged_alone(build, draft=True)
        site, figures = site_pages(build.site), sheet.figures
        for figure in derivations(figures):
            assert isfinite(figure.value) and isfinite(figure.spread), (
                f"{changed}: {figure.key} is {figure.value}"
            )
        if depth == "judged":
            return
        numbers = [numbers_page(sheet, figures)] if whole else []
        pages = [*(sheet_pages(sheet) if whole else [build_page(sheet)]), *numbers]
        texts = [_TAGS.sub("", self.renderer.page(page, site).decode()) for page in pages]
        texts.append(parts_csv(sheet).decode())
        bench_sheet(sheet, site, "")
        summarise(sheet)
        if whole:
            texts.append(str(figures_data(sheet, figures)))
        for text in texts:
            odd = _NO_NUMBER.search(text)
            assert odd is None, (
                f"{changed}: a page says {text[max(0, odd.start() - 60) : odd.end() + 20]!r}"
            )


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


def all_slips(documents: Mapping[str, Document]) -> tuple[Slip, ...]:
    """Every number of every file in each of these variants, each slip once."""
    found = (
        slip(document, path, text, match, number)
        for document in documents.values()
        for path, text, match in numbers(document)
        for number in variants(match).values()
    )
    return tuple(s for s in dict.fromkeys(found) if s.before != s.after)


def _mistyped(number: str, rng: random.Random) -> str:
    """A number as a hurried hand leaves it: a digit lost, doubled, changed or swapped, the point
    moved, another sign.
    """
    at = rng.randrange(len(number))
    kind = rng.randrange(8)
    if kind == 0:
        return number[:at] + number[at + 1 :] or "0"
    if kind == 1:
        return number[:at] + number[at] + number[at:]
    if kind == 2:
        return number[:at] + rng.choice("0123456789") + number[at + 1 :]
    if kind == 3:
        return number[:at] + number[at : at + 2][::-1] + number[at + 2 :]
    if kind == 4:
        return f"{float(number) * 10 ** rng.randint(-9, 9):.12g}"
    if kind == 5:
        return "-" + number
    if kind == 6:
        return number.replace(".", "") if "." in number else f"{number[:at]}.{number[at:]}"
    return f"{float(number) * rng.uniform(0, 3):.6g}"


def random_slips(documents: Mapping[str, Document], seed: int) -> Iterator[Slip]:
    """Slips without end, the same for the same seed: first a file, so that short ones have their
    share.
    """
    rng = random.Random(seed)
    by_file = {file: list(numbers(document)) for file, document in documents.items()}
    files = [file for file, found in by_file.items() if found]
    while True:
        file = rng.choice(files)
        path, text, match = rng.choice(by_file[file])
        changed = slip(documents[file], path, text, match, _mistyped(match[0], rng))
        if changed.before != changed.after:
            yield changed
