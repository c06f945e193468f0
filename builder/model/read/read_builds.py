"""Trees of builds become builds; one that is as it was is read when somebody asks for it."""

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from builder.diagnostics.finding import Collector, Finding
from builder.diagnostics.where import KeyPath, Origins
from builder.load.files import Loaded
from builder.model.build import Build
from builder.model.follow.check_names import wrong_successor
from builder.model.follow.references import follow
from builder.model.read.held_values import Lazily
from builder.model.read.read_cache import BuildFacts, digest_of
from builder.model.read.shared_signs import shared_signs
from builder.model.read.shelf import Shelf
from builder.model.site import Site
from builder.model.source.sizes import too_many
from builder.model.trees.variants import Merged, resolve
from builder.model.words_aside import is_aside, tree_aside

_Moved = tuple[KeyPath, str, KeyPath]  # a value's path in the build, and where it stands

_HELD = 256  # builds at once; one takes a quarter of a megabyte


class _Trees(Mapping[str, dict[str, Any]]):
    """The trees of builds by name, each parsed when it is asked for."""

    def __init__(self, names: Collection[str], loaded: Loaded) -> None:
        self._names, self._loaded = dict.fromkeys(names), loaded

    def __getitem__(self, name: str) -> dict[str, Any]:
        if name not in self._names:
            raise KeyError(name)
        tree = self._loaded.documents[f"{name}/build.yaml"].tree
        if not isinstance(tree, dict):
            raise TypeError(f"the tree of {name} holds no keys")
        return tree

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)


def _moved(origins: Origins) -> list[_Moved]:
    return [(path, where.file, where.path) for path, where in origins.moved.items()]


@dataclass(eq=False)
class _Reader:
    """Reads builds one by one; local to a workspace."""

    trees: Mapping[str, dict[str, Any]]
    loaded: Loaded
    site: Site
    of_site: str
    shelf: Shelf

    def __post_init__(self) -> None:
        found = (f.where.file for f in self.loaded.findings if f.where)
        self.unread = {file.split("/")[0] for file in found if file.endswith("/build.yaml")}
        self.packs = [facts.pack for facts in self.shelf.facts.values() if facts.pack is not None]

    def alone(self, name: str) -> tuple[Build | None, tuple[Finding, ...]]:
        """A build as its own file and its bases say; with a mistake, none."""
        merged, findings = resolve(name, self.trees, self.loaded.limits.bases)
        findings += (
            too_many(merged.tree, merged.origins, self.loaded.limits) if merged is not None else ()
        )
        if merged is not None:
            findings += shared_signs(merged.tree, merged.origins, self.site.currency)
        findings += wrong_successor(name, self.trees)
        if merged is None or findings or self.unread.intersection(merged.chain):
            return None, findings
        shelf, digest = self.shelf, self.digest(merged)
        return follow(name, merged, self.site, shelf.entries, shelf.broken, self.packs, digest)

    def digest(self, merged: Merged) -> Callable[[tuple[str, ...]], str]:
        """Gives the digest of a build's resolved model for the shelf names that it uses.

        Where each value stands belongs to it, since pages cite file and key path.
        """
        moved = _moved(merged.origins)
        return partial(self._digest, merged.tree, merged.chain, merged.origins, moved)

    def _digest(
        self,
        tree: Mapping[str, Any],
        chain: tuple[str, ...],
        origins: Origins,
        moved: list[_Moved],
        used: tuple[str, ...],
    ) -> str:
        of_parts = [self.shelf.facts[n].digest for n in used]
        return digest_of(tree, chain, origins.root.file, moved, of_parts, used, self.of_site)

    def _compared(self, build: Build) -> str:
        """The digest of a build with its words aside."""
        moved = [each for each in _moved(build.origins) if not is_aside(each[0])]
        tree, used = tree_aside(build.tree), tuple(build.shelf)
        return self._digest(tree, build.chain, build.origins, moved, used)

    def facts(self, build: Build) -> BuildFacts:
        """What is known of a build that was read alone."""
        file = self.loaded.digest(f"{build.name}/build.yaml")
        compared, flown = self._compared(build), bool(build.source.flights)
        used = tuple(build.shelf)
        return BuildFacts(file, build.digest, compared, flown, build.chain[1:], used)


class Builds(Lazily[Build]):
    """Builds that can be read on from. One is read when it is asked for; the last few are held.

    A variant comes with the base whose log teaches its pilot's style until its own flights say it.
    """

    def __init__(self, facts: Mapping[str, BuildFacts], alone: Lazily[Build]) -> None:
        super().__init__(facts, self._read, _HELD)
        self.facts, self._alone = facts, alone

    def _log(self, name: str) -> str:
        """The nearest base of the same aircraft with flights; '' where there is none."""
        for base in self.facts[name].bases:
            if base not in self.facts:
                continue
            if self.facts[base].flown:
                return base
            if self._alone[base].source.own_aircraft:
                return ""
        return ""

    def _base(self, name: str) -> str:
        """The nearest base that can be read: what was weighed there says something of this build."""
        return next((b for b in self.facts[name].bases if b in self.facts), "")

    def digest(self, name: str) -> str:
        """The digest of all that the pages of a build are made from, but the site's; it holds its
        bases' as well.
        """
        own, base = self.facts[name].digest, self._base(name)
        return digest_of(own, self.digest(base)) if base else own

    def compared(self, name: str) -> str:
        """The digest of all that comparisons with a build are made from, its bases' as well."""
        own, base = self.facts[name].compared, self._base(name)
        return digest_of(own, self.compared(base)) if base else own

    def _read(self, name: str) -> Build:
        build, log, base = self._alone[name], self._log(name), self._base(name)
        if not base:
            return build
        if build.source.own_aircraft:
            return replace(build, like=self._read(base), digest=self.digest(name))
        flown = self._read(log) if log else None
        return replace(build, log_of=flown, base=self._read(base), digest=self.digest(name))


def read_builds(
    names: Collection[str],
    unchanged: Mapping[str, BuildFacts],
    loaded: Loaded,
    settings: tuple[Site, str],
    shelf: Shelf,
    found: Collector,
) -> Builds:
    """All builds that can be read; those that are `unchanged` when they are asked for, the others
    now.

    `settings` are the site's, and their digest.
    """
    reader = _Reader(_Trees(names, loaded), loaded, *settings, shelf)
    facts: dict[str, BuildFacts] = {}

    def again(name: str) -> Build:
        build, _ = reader.alone(name)
        if build is None:
            raise ValueError(f"the build {name} was read without a mistake before")
        return build

    alone = Lazily(names, again, _HELD)
    for name in names:
        if name in unchanged:
            facts[name] = unchanged[name]
            continue
        build, findings = reader.alone(name)
        found.add(*(f.in_build(name) for f in findings))
        if build is not None:
            facts[name] = reader.facts(alone.hold(name, build))
    return Builds(facts, alone)
