"""All documents of a workspace become a site, a shelf and builds; every mistake is found in one go."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from builder.diagnostics.finding import Collector, Finding, mistake
from builder.diagnostics.where import Origins, Where
from builder.load.files import Loaded
from builder.model.build import ShelfEntry
from builder.model.follow.contradictions import in_site
from builder.model.read.read_builds import Builds, read_builds
from builder.model.read.read_cache import NOTHING_KNOWN, PartFacts, ReadCache, digest_of
from builder.model.read.shared_signs import shared_signs
from builder.model.read.shelf import NOTHING_LENT, read_shelf
from builder.model.site import Site
from builder.model.trees.reading import read_as


@dataclass(frozen=True)
class Workspace:
    """What was read: site settings, shelf, the builds that can be read on from, and all mistakes.

    `names` are those of all builds that are there, unread ones too. Parts and builds are read when
    they are asked for, if they are as they were; `parts` and `known` tell what can be said of them
    without.
    """

    site: Site
    shelf: Mapping[str, ShelfEntry]
    builds: Builds
    findings: tuple[Finding, ...]
    names: tuple[str, ...]
    parts: Mapping[str, PartFacts]
    known: ReadCache

    @property
    def stops_all(self) -> bool:
        """Whether no build can be judged: site.yaml is what all are judged by, and the folders have
        to be readable.
        """
        whole = (None, "site.yaml", ".", "shelf")
        return any(
            not f.build and (f.where.file if f.where else None) in whole for f in self.findings
        )

    @cached_property
    def digests(self) -> Mapping[str, str]:
        """The digest of every build that can be read on from, by name."""
        return {name: self.builds.digest(name) for name in self.builds}

    def mistakes_of(self, build: str) -> tuple[Finding, ...]:
        """What keeps one build from being read."""
        return tuple(f for f in self.findings if f.build == build)


def _read_site(loaded: Loaded, found: Collector) -> tuple[Site, Mapping[str, Any]]:
    document = loaded.documents.get("site.yaml")
    empty = Site(title="Build sheets")
    if document is None:
        return empty, {}
    tree = document.tree if document.tree is not None else {}
    if document.tree is None and any(
        f.where and f.where.file == "site.yaml" for f in loaded.findings
    ):
        return empty, {}
    site, findings = read_as(Site, tree, Origins(Where("site.yaml")))
    contradictions = in_site(site, Where("site.yaml")) if site is not None else ()
    if site is not None:
        contradictions += shared_signs(tree, Origins(Where("site.yaml")), site.currency)
    found.add(*findings, *contradictions)
    return (site, tree) if site is not None and isinstance(tree, dict) else (empty, {})


def _check_trees(loaded: Loaded, unchanged: Collection[str], found: Collector) -> tuple[str, ...]:
    """Names of the builds whose file holds keys; a mistake for each of the others that has none
    yet.
    """
    names = []
    for name in loaded.builds:
        file = f"{name}/build.yaml"
        if name in unchanged or loaded.holds_keys(file):
            names.append(name)
        elif not any(f.where is not None and f.where.file == file for f in loaded.findings):
            problem, hint = (
                "A build file holds keys such as title and parts.",
                "Start one with `benchleaf start NAME`.",
            )
            found.add(mistake("data/wrong-shape", problem, hint, Where(file), name))
    return tuple(names)


def read_workspace(
    loaded: Loaded, known: ReadCache = NOTHING_KNOWN, lent: Mapping[str, ShelfEntry] = NOTHING_LENT
) -> Workspace:
    """All builds that can be read, with all mistakes. Never raises for what the files hold.

    What is as it was when it was `known` is read when somebody asks for it; parts among it that
    were read then may be `lent`.
    """
    found = Collector()
    for finding in loaded.findings:
        file = finding.where.file if finding.where else ""
        found.add(finding.in_build(file.split("/")[0]) if file.endswith("/build.yaml") else finding)
    site, site_tree = _read_site(loaded, found)
    of_site = digest_of(
        {k: v for k, v in site_tree.items() if k not in ("compare", "about", "at_most")}
    )
    if (known.limits, known.site) != (str(loaded.limits), of_site):
        known = NOTHING_KNOWN
    shelf = read_shelf(loaded, known, found, site.currency, lent)
    digests = {name: loaded.digest(f"{name}/build.yaml") for name in loaded.builds}
    unchanged = known.unchanged(digests, shelf.facts)
    names = _check_trees(loaded, unchanged, found)
    builds = read_builds(names, unchanged, loaded, (site, of_site), shelf, found)
    now_known = ReadCache(str(loaded.limits), of_site, shelf.files, builds.facts)
    return Workspace(
        site, shelf.entries, builds, found.take(), loaded.names, shelf.facts, now_known
    )
