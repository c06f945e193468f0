"""All documents of a workspace become a site, a shelf and builds; every mistake is found in one go."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from builder.diagnostics.finding import Collector, Finding, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Origins, Where
from builder.load.files import Loaded
from builder.model.build import Build, ShelfEntry
from builder.model.kinds import KINDS, Part
from builder.model.reading import read_as
from builder.model.references import follow
from builder.model.site import Site
from builder.model.sizes import too_many
from builder.model.variants import Merged, resolve


@dataclass(frozen=True)
class Workspace:
    """What was read: site settings, shelf, the builds that can be read on from, and all mistakes.

    `names` are those of all builds that are there, unread ones too.
    """

    site: Site
    shelf: Mapping[str, ShelfEntry]
    builds: Mapping[str, Build]
    findings: tuple[Finding, ...]
    names: tuple[str, ...]

    @property
    def stops_all(self) -> bool:
        """Whether no build can be judged: site.yaml is what all are judged by, and the folders have to be readable."""
        whole = (None, "site.yaml", ".", "shelf")
        return any(not f.build and (f.where.file if f.where else None) in whole for f in self.findings)

    def mistakes_of(self, build: str) -> tuple[Finding, ...]:
        """What keeps one build from being read."""
        return tuple(f for f in self.findings if f.build == build)


def _read_site(loaded: Loaded, found: Collector) -> tuple[Site, Mapping[str, Any]]:
    document = loaded.documents.get("site.yaml")
    empty = Site(title="Build sheets")
    if document is None:
        return empty, {}
    tree = document.tree if document.tree is not None else {}
    if document.tree is None and any(f.where and f.where.file == "site.yaml" for f in loaded.findings):
        return empty, {}
    site, findings = read_as(Site, tree, Origins(Where("site.yaml")))
    found.add(*findings)
    return (site, tree) if site is not None and isinstance(tree, dict) else (empty, {})


def _read_part(name: str, tree: Any, where: Where, found: Collector) -> Part | None:
    if not isinstance(tree, dict):
        found.add(mistake("data/wrong-shape", f"The part {name!r} holds no keys.", "Give it a kind and a name.", where))
        return None
    kind = tree.get("kind")
    if kind is None:
        found.add(
            mistake(
                "data/missing-key",
                f"The part {name!r} has no kind.",
                "Add a line 'kind: …'.",
                Where(where.file, where.path, key=True),
            )
        )
        return None
    if not isinstance(kind, str) or kind not in KINDS:
        found.add(
            mistake(
                "data/no-such-kind",
                f"{kind!r} is not a kind of part.",
                did_you_mean(str(kind), KINDS, 30),
                where.at("kind"),
            )
        )
        return None
    part, findings = read_as(KINDS[kind], tree, Origins(where))
    found.add(*findings)
    return part


def _read_shelf(loaded: Loaded, found: Collector) -> tuple[dict[str, ShelfEntry], dict[str, Any], set[str]]:
    """Shelf entries, their trees for digests, and the names that stand on the shelf but cannot be read."""
    shelf: dict[str, ShelfEntry] = {}
    trees: dict[str, Any] = {}
    broken: set[str] = set()
    for file in loaded.shelf_files:
        tree = loaded.documents[file].tree
        if tree is None:
            continue
        if not isinstance(tree, dict):
            found.add(
                mistake("data/wrong-shape", "A shelf file holds parts by name.", "Write 'name:' lines.", Where(file))
            )
            continue
        for name, entry in tree.items():
            if len(trees) >= loaded.limits.shelf_parts:
                problem = f"The shelf has over {loaded.limits.shelf_parts} parts; no more are read."
                found.add(mistake("data/too-large", problem, "Take out what no build uses.", Where(file)))
                break
            where = Where(file, (name,))
            if name in trees:
                problem = (
                    f"The part {name!r} stands on the shelf twice; the other is in {shelf[name].where.file}."
                    if name in shelf
                    else f"The part {name!r} stands on the shelf twice."
                )
                found.add(mistake("data/twice", problem, "Rename one of the two.", Where(file, (name,), key=True)))
                continue
            trees[name] = entry
            part = _read_part(name, entry, where, found)
            if part is None:
                broken.add(name)
            else:
                shelf[name] = ShelfEntry(name, part, where)
    return shelf, trees, broken


def _digest(*trees: Any) -> str:
    """The digest of trees as they stand in the files, keys in their order: pages show lists of parts in that order."""
    return hashlib.sha256(json.dumps(trees, ensure_ascii=False).encode()).hexdigest()


def _build_trees(loaded: Loaded, found: Collector) -> dict[str, dict[str, Any]]:
    trees: dict[str, dict[str, Any]] = {}
    for name in loaded.builds:
        tree = loaded.documents[f"{name}/build.yaml"].tree
        if isinstance(tree, dict):
            trees[name] = tree
        elif not any(f.where is not None and f.where.file == f"{name}/build.yaml" for f in loaded.findings):
            found.add(
                mistake(
                    "data/wrong-shape",
                    "A build file holds keys such as title and parts.",
                    "Start one with `benchleaf start NAME`.",
                    Where(f"{name}/build.yaml"),
                    name,
                )
            )
    return trees


def read_workspace(loaded: Loaded) -> Workspace:
    """All builds that can be read, with all mistakes. Never raises for what the files hold."""
    found = Collector()
    for finding in loaded.findings:
        file = finding.where.file if finding.where else ""
        found.add(finding.in_build(file.split("/")[0]) if file.endswith("/build.yaml") else finding)
    site, site_tree = _read_site(loaded, found)
    shelf, shelf_trees, broken = _read_shelf(loaded, found)
    builds: dict[str, Build] = {}
    trees = _build_trees(loaded, found)
    of_site = _digest({k: v for k, v in site_tree.items() if k not in ("compare", "about", "at_most")})
    of_shelf = {n: _digest(entry.where.file, shelf_trees[n]) for n, entry in shelf.items()}
    unread = {f.where.file.split("/")[0] for f in loaded.findings if f.where and f.where.file.endswith("/build.yaml")}
    for name in trees:
        merged, findings = resolve(name, trees, loaded.limits.bases)
        findings += too_many(merged.tree, merged.origins, loaded.limits) if merged is not None else ()
        found.add(*(f.in_build(name) for f in findings))
        if merged is None or findings or unread.intersection(merged.chain):
            continue
        build, findings = follow(name, merged, site, shelf, broken, _maker(merged, of_site, of_shelf))
        found.add(*(f.in_build(name) for f in findings))
        if build is not None:
            builds[name] = build
    lent = {name: _with_log(build, builds) for name, build in builds.items()}
    return Workspace(site, shelf, lent, found.take(), loaded.names)


def _with_log(build: Build, builds: Mapping[str, Build]) -> Build:
    """A variant that was not flown yet, with the base whose log teaches its pilot's style; its digest holds that too."""
    if build.source.flights:
        return build
    base = next((builds[b] for b in build.chain[1:] if b in builds and builds[b].source.flights), None)
    return build if base is None else replace(build, log_of=base, digest=_digest(build.digest, base.digest))


def _maker(merged: Merged, site: str, shelf: Mapping[str, str]) -> Any:
    """Gives the digest of a build's resolved model for the shelf names that it uses.

    Where each value stands belongs to it, since pages cite file and key path.
    """
    origins = merged.origins
    moved = [(path, where.file, where.path) for path, where in origins.moved.items()]

    def digest(used: tuple[str, ...]) -> str:
        return _digest(merged.tree, merged.chain, origins.root.file, moved, [shelf.get(n) for n in used], used, site)

    return digest
