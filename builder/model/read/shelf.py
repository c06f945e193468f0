"""The files of the shelf become parts; what is as it was is not read again before somebody asks for
it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from builder.diagnostics.finding import Collector, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Origins, Where
from builder.load.files import Loaded
from builder.model.build import ShelfEntry
from builder.model.follow.check_names import twin
from builder.model.follow.contradictions import in_part
from builder.model.follow.like_packs import pack_kind
from builder.model.kinds import KINDS, Pack, Part
from builder.model.read.held_values import Lazily
from builder.model.read.read_cache import PartFacts, ReadCache, ShelfFile, digest_of
from builder.model.read.shared_lines import each_contact
from builder.model.read.shared_signs import shared_signs
from builder.model.trees.reading import read_as
from builder.model.values.names import SHELF, folded_name, name_mistake

NOTHING_LENT: Mapping[str, ShelfEntry] = MappingProxyType({})


@dataclass
class Shelf:
    """The parts that can be read, by name, with what is known of each; `broken` stand there and
    cannot be read.

    `files` are those without a mistake of their own.
    """

    entries: Mapping[str, ShelfEntry] = field(default_factory=dict)
    facts: dict[str, PartFacts] = field(default_factory=dict)
    broken: set[str] = field(default_factory=set)
    files: dict[str, ShelfFile] = field(default_factory=dict)


def read_part(
    name: str, tree: Any, where: Where, found: Collector, currency: str = ""
) -> Part | None:
    """A part from the tree of its entry; what is wrong with it is added to `found`."""
    if not isinstance(tree, dict):
        found.add(
            mistake(
                "data/wrong-shape",
                f"The part {name!r} holds no keys.",
                "Give it a kind and a name.",
                where,
            )
        )
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
    each, origins = each_contact(tree, where)
    part, findings = read_as(KINDS[kind], each, origins)
    contradictions = in_part(part, where) if part is not None else ()
    contradictions += shared_signs(tree, Origins(where), currency)
    found.add(*findings, *contradictions)
    return None if contradictions else part


@dataclass(eq=False)
class _Reader:
    """Reads the shelf file by file; local to a call."""

    loaded: Loaded
    known: ReadCache
    found: Collector
    currency: str = ""
    lent: Mapping[str, ShelfEntry] = field(default_factory=lambda: NOTHING_LENT)
    shelf: Shelf = field(default_factory=Shelf)
    places: dict[str, str] = field(default_factory=dict)  # file of each name
    folds: dict[str, str] = field(default_factory=dict)  # first name of each spelling
    parts: dict[str, ShelfEntry] = field(default_factory=dict)  # those that were read now

    def file(self, file: str) -> None:
        held = self.known.shelf.get(file)
        if held is not None and held.digest == self.loaded.digest(file):
            self.shelf.files[file] = held
            for facts in held.parts:
                if not self.takes(file):
                    return
                if self.is_new(facts.shelf, file):
                    self.shelf.facts[facts.shelf] = facts
            return
        tree = self.loaded.documents[file].tree
        if tree is None:
            return
        if not isinstance(tree, dict):
            problem = "A shelf file holds parts by name."
            self.found.add(
                mistake("data/wrong-shape", problem, "Write 'name:' lines.", Where(file))
            )
            return
        self.read(file, tree)

    def read(self, file: str, tree: Mapping[str, Any]) -> None:
        """Reads every part of a file, and notes the file if none of them is broken."""
        facts: list[PartFacts | None] = []
        for name, entry in tree.items():
            if not self.takes(file):
                return
            where = Where(file, (name,))
            before = len(self.found.findings)
            new = self.is_new(name, file) and self.is_fit(name, where)
            part = self.part(name, entry, where) if new else None
            if part is None:
                self.shelf.broken.update((name,) if self.places[name] == file else ())
                facts.append(None)
                continue
            pack = pack_kind(name, part) if isinstance(part, Pack) else None
            digest = digest_of(file, entry)
            self.shelf.facts[name] = PartFacts(name, part.name, digest, part.kind, pack)
            facts.append(self.shelf.facts[name] if len(self.found.findings) == before else None)
            self.parts[name] = ShelfEntry(name, part, where)
        whole = tuple(f for f in facts if f is not None)
        if len(whole) == len(facts):
            self.shelf.files[file] = ShelfFile(self.loaded.digest(file), whole)

    def part(self, name: str, entry: Any, where: Where) -> Part | None:
        """A part, read now, unless it is lent and as it was."""
        file = self.known.shelf.get(where.file)
        before = next((f for f in file.parts if f.shelf == name), None) if file else None
        held = self.lent.get(name) if before is not None else None
        same = before is not None and before.digest == digest_of(where.file, entry)
        if held is not None and held.where == where and same:
            return held.part
        return read_part(name, entry, where, self.found, self.currency)

    def takes(self, file: str) -> bool:
        """Whether one more part is read."""
        most = self.loaded.limits.shelf_parts
        if len(self.places) < most:
            return True
        problem = f"The shelf has over {most} parts; no more are read."
        self.found.add(
            mistake("data/too-large", problem, "Take out what no build uses.", Where(file))
        )
        return False

    def is_new(self, name: str, file: str) -> bool:
        """Whether no other part has this name, or one that differs by capitals only; a mistake if
        one has.
        """
        other = self.folds.setdefault(folded_name(name), name)
        if other != name:
            self.found.add(twin(name, other, Where(file, (name,), key=True)))
            self.places.setdefault(name, file)
            return False
        if name not in self.places:
            self.places[name] = file
            return True
        read = name in self.shelf.facts
        there = f"; the other is in {self.places[name]}" if read else ""
        problem = f"The part {name!r} stands on the shelf twice{there}."
        again = Where(file, (name,), key=True)
        self.found.add(mistake("data/twice", problem, "Rename one of the two.", again))
        return False

    def is_fit(self, name: str, where: Where) -> bool:
        """Whether a part may have this name: it becomes an address; a mistake if not."""
        wrong = name_mistake(name, SHELF)
        if wrong is not None:
            self.found.add(
                mistake("data/bad-name", *wrong, Where(where.file, where.path, key=True))
            )
        return wrong is None

    def entry(self, name: str) -> ShelfEntry:
        """A part that is as it was, read now."""
        where = Where(self.places[name], (name,))
        held = self.lent.get(name)
        if held is not None and held.where == where:
            return held
        tree = self.loaded.documents[where.file].tree
        entry = tree[name] if isinstance(tree, dict) else None
        part = read_part(name, entry, where, Collector())
        if part is None:
            raise ValueError(f"the part {name} was read without a mistake before")
        return ShelfEntry(name, part, where)


def read_shelf(
    loaded: Loaded,
    known: ReadCache,
    found: Collector,
    currency: str = "",
    lent: Mapping[str, ShelfEntry] = NOTHING_LENT,
) -> Shelf:
    """The shelf, every file that is not as it was read now; `currency` is the workspace's own.

    `lent` are parts as they were when the shelf was `known`: those that are so still are taken.
    """
    reader = _Reader(loaded, known, found, currency, lent)
    for file in loaded.shelf_files:
        reader.file(file)
    entries = Lazily(reader.shelf.facts, reader.entry, loaded.limits.shelf_parts)
    for name, entry in reader.parts.items():
        entries.hold(name, entry)
    reader.shelf.entries = entries
    return reader.shelf
