"""A build with its references followed: what every later stage works on. Frozen, SI, no text left
to parse.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from math import fsum
from typing import Generic, TypeVar, cast

from builder.diagnostics.where import Origins, Where
from builder.frozen import value_class
from builder.model.kinds import Pack, Part
from builder.model.site import Site
from builder.model.source.build_joints import Plug, Screw, Wire
from builder.model.source.build_source import BuildSource, PackUse, PartUse
from builder.model.source.electrical import Pad, Socket
from builder.model.values.lengths_text import Position
from builder.model.values.measures import Cells


def piece_name(key: str, piece: int) -> str:
    """A piece of a part by its number: `camera`, `motor.1`."""
    return f"{key}.{piece}" if piece else key


@value_class(frozen=True, slots=True, order=True)
class Contact:
    """One pad of one piece of a part: `camera.5V`, or `motor.1.A` where the build has several
    motors.

    `piece` counts from 1; it is 0 where there is one piece only.
    """

    part: str
    piece: int
    pad: str

    def __str__(self) -> str:
        return f"{self.part}.{self.piece}.{self.pad}" if self.piece else f"{self.part}.{self.pad}"

    @property
    def board(self) -> str:
        """The piece that the contact is on."""
        return piece_name(self.part, self.piece)


P = TypeVar("P", bound=Part, covariant=True)


@dataclass(frozen=True, eq=False)
class FittedAs(Generic[P]):
    """A part in the build: its key there, the shelf's entry, how many, where it sits. P is its
    class.
    """

    key: str
    shelf: str
    part: P
    use: PartUse
    shelf_where: Where
    where: Where

    @property
    def count(self) -> int:
        """Pieces in the build, without spares."""
        return self.use.count

    @property
    def pieces(self) -> tuple[int, ...]:
        """Piece numbers as contacts use them: 1 to count, or 0 alone."""
        return tuple(range(1, self.use.count + 1)) if self.use.count > 1 else (0,)

    @property
    def said_places(self) -> tuple[Position, ...]:
        """Where its pieces sit as the build says it: of each, or one place for all; empty where it
        says none.
        """
        return self.use.each_at or ((self.use.at,) if self.use.at is not None else ())


Fitted = FittedAs[Part]


def piece_names(fitted: Fitted) -> tuple[str, ...]:
    """Names of a part's pieces: `motor.1`, or the part's own where there is one."""
    return tuple(piece_name(fitted.key, piece) for piece in fitted.pieces)


K = TypeVar("K", bound=Part)


@dataclass(frozen=True, eq=False)
class FittedPack:
    """A flight battery of the build."""

    key: str
    shelf: str
    part: Pack
    use: PackUse
    shelf_where: Where
    where: Where

    @property
    def joined(self) -> int:
        """How many batteries fly at once, joined in series and in parallel."""
        return self.use.series * self.use.parallel

    @property
    def seats(self) -> tuple[Position, ...]:
        """Where each of the batteries sits that fly at once; empty where nobody says it of each."""
        if self.use.each_at:
            return self.use.each_at
        return (self.use.at,) if self.use.at is not None and self.joined == 1 else ()

    @property
    def middle(self) -> Position | None:
        """The middle of the batteries that fly at once; None where nobody says where they sit."""
        seats = self.use.each_at
        if not seats:
            return self.use.at
        sums = (fsum(getattr(seat, way) for seat in seats) for way in ("x", "y", "z"))
        x, y, z = (each / len(seats) for each in sums)
        return Position(x=x, y=y, z=z)

    @property
    def pieces(self) -> int:
        """How many batteries are bought: as many as the builder flies, at least one set of them."""
        return max(self.use.count, self.joined) if self.use.count else 0

    @property
    def cells(self) -> Cells | None:
        """Cells of the batteries as they are joined; None where nobody says those of one."""
        one = self.part.cells
        if one is None:
            return None
        series, parallel = self.use.series, self.use.parallel
        return Cells(one.low * series, one.high * series, one.parallel * parallel)

    @property
    def capacity(self) -> float | None:
        """Charge of the batteries as they are joined (C): series adds none."""
        one = self.part.capacity
        return one.value * self.use.parallel if one is not None else None


@dataclass(frozen=True)
class WireRun:
    """A wire with both ends followed to contacts."""

    start: Contact
    end: Contact
    wire: Wire
    where: Where


@dataclass(frozen=True)
class PlugJoin:
    """A plugged joint with both ends followed: (part key, piece, socket name) each."""

    start: tuple[str, int, str]
    end: tuple[str, int, str]
    plug: Plug
    where: Where


@dataclass(frozen=True)
class ScrewPlace:
    """Screws of one place with the shelf's screw."""

    screw: Screw
    part: Part
    shelf: str
    where: Where


@dataclass(frozen=True, eq=False)
class Build:
    """One aircraft, resolved. `chain` names the build and its bases, nearest first; `shelf` holds
    what it may use.

    `log_of` is the nearest base of the same aircraft with flights: its pilot flies this one too,
    and its log counts until a flight of this one's own does. `base` is what it was made from: the
    build that a variant is based on, or the one in which a part was swapped. What was weighed there
    says something of this one. `like` is the build after whose sheet another aircraft is made: what
    is known of its kinds of parts holds for both.
    """

    name: str
    source: BuildSource
    site: Site
    parts: Mapping[str, Fitted]
    packs: Mapping[str, FittedPack]
    wires: tuple[WireRun, ...]
    plugs: tuple[PlugJoin, ...]
    screws: tuple[ScrewPlace, ...]
    origins: Origins
    chain: tuple[str, ...]
    digest: str
    shelf: Mapping[str, "ShelfEntry"] = field(default_factory=dict)
    tree: Mapping[str, object] = field(default_factory=dict)
    log_of: "Build | None" = None
    base: "Build | None" = None
    like: "Build | None" = None

    @cached_property
    def aircraft(self) -> "Build":
        """The build at the root of its bases: variants and swaps are made from that one aircraft."""
        return self.base.aircraft if self.base is not None else self

    @property
    def title(self) -> str:
        """The build's title."""
        return self.source.title

    def where(self, *path: str | int) -> Where:
        """Where a value of build.yaml stands (in a base's file, if it was inherited)."""
        return self.origins.where(path)

    def of_kind(self, *kinds: type[K]) -> tuple[FittedAs[K], ...]:
        """The build's parts of these kinds, in the order of the file, typed as what they are."""
        return tuple(cast(FittedAs[K], f) for f in self.parts.values() if isinstance(f.part, kinds))

    def pad(self, contact: Contact) -> Pad:
        """The pad at a contact. KeyError for a contact that the model did not make."""
        return self.parts[contact.part].part.pads[contact.pad]

    def socket(self, end: tuple[str, int, str]) -> Socket:
        """The socket at a plug's end."""
        return self.parts[end[0]].part.sockets[end[2]]

    @cached_property
    def contacts(self) -> tuple[Contact, ...]:
        """Every pad of every piece, in the order of the file."""
        return tuple(
            Contact(f.key, piece, pad)
            for f in self.parts.values()
            for piece in f.pieces
            for pad in f.part.pads
        )

    @cached_property
    def by_name(self) -> Mapping[str, Contact]:
        """Every contact by its name: `camera.5V`."""
        return {str(c): c for c in self.contacts}


@dataclass(frozen=True, eq=False)
class ShelfEntry:
    """A part as the shelf has it."""

    name: str
    part: Part
    where: Where
