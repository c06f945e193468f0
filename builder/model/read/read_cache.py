"""What a workspace taught when it was read without a mistake, so that what is as it was need not be
read again.

It saves time and decides nothing: a value in it counts only while the digests of all that it came
from are the same.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from builder.load.documents import Sound
from builder.model.follow.like_packs import PackKind


def digest_of(*trees: Any) -> str:
    """The digest of trees as they stand in the files, keys in their order: pages show lists of
    parts in that order.
    """
    return hashlib.sha256(json.dumps(trees, ensure_ascii=False).encode()).hexdigest()


class PartFacts(NamedTuple):
    """A part of the shelf: its name there, the name that pages show, the digest of what it says,
    its kind; which battery it is, if it is one.
    """

    shelf: str
    name: str
    digest: str
    kind: str
    pack: PackKind | None = None


class BuildFacts(NamedTuple):
    """A build alone: digests of its file, its model and its model with words aside, whether it was
    flown, its bases, what of the shelf it may use.
    """

    file_digest: str
    digest: str
    compared: str
    flown: bool
    bases: tuple[str, ...]
    uses: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ShelfFile:
    """A file of the shelf: the digest of its bytes, and its parts in their order."""

    digest: str
    parts: tuple[PartFacts, ...]


@dataclass(frozen=True)
class ReadCache:
    """Files of the shelf by path, builds by name, under these limits and with this digest of the
    site's settings.
    """

    limits: str = ""
    site: str = ""
    shelf: Mapping[str, ShelfFile] = field(default_factory=dict)
    builds: Mapping[str, BuildFacts] = field(default_factory=dict)

    @property
    def sound(self) -> Sound:
        """Files that hold no mistake while they are as they were."""
        builds = {f"{name}/build.yaml": facts.file_digest for name, facts in self.builds.items()}
        return Sound(self.limits, builds | {file: held.digest for file, held in self.shelf.items()})

    def as_plain(self) -> dict[str, Any]:
        """Plain values, to be kept as JSON."""
        shelf = {
            file: {"digest": held.digest, "parts": held.parts} for file, held in self.shelf.items()
        }
        return {
            "limits": self.limits,
            "site": self.site,
            "shelf": shelf,
            "builds": dict(self.builds),
        }

    @classmethod
    def from_plain(cls, plain: Mapping[str, Any]) -> "ReadCache":
        """What `as_plain` wrote. LookupError, AttributeError, TypeError or ValueError for anything
        else.
        """
        shelf = {
            file: ShelfFile(held["digest"], tuple(_part(*part) for part in held["parts"]))
            for file, held in plain["shelf"].items()
        }
        builds = {
            name: BuildFacts(file, digest, compared, flown, tuple(bases), tuple(uses))
            for name, (file, digest, compared, flown, bases, uses) in plain["builds"].items()
        }
        return cls(plain["limits"], plain["site"], shelf, builds)

    def unchanged(
        self, files: Mapping[str, str], parts: Mapping[str, PartFacts]
    ) -> dict[str, BuildFacts]:
        """Builds of which all is as it was: packs of the shelf, their own file and their bases',
        their parts.

        `files` are the digests of the builds' files now, by name; `parts` those of the shelf now,
        without the broken.
        """
        before = {part.shelf: part for file in self.shelf.values() for part in reversed(file.parts)}
        if _packs(parts) != _packs(before):
            return {}
        same = {
            name
            for name, part in parts.items()
            if name in before and before[name].digest == part.digest
        }
        alone = {
            n
            for n, f in self.builds.items()
            if files.get(n) == f.file_digest and same.issuperset(f.uses)
        }
        return {n: f for n, f in self.builds.items() if n in alone and alone.issuperset(f.bases)}


def _part(shelf: str, name: str, digest: str, kind: str, pack: list[Any] | None) -> PartFacts:
    return PartFacts(shelf, name, digest, kind, PackKind(*pack) if pack is not None else None)


def _packs(parts: Mapping[str, PartFacts]) -> list[PackKind]:
    return sorted(part.pack for part in parts.values() if part.pack is not None)


NOTHING_KNOWN = ReadCache()
