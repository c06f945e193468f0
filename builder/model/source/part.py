"""What every part has in common, whatever its kind."""

from typing import ClassVar

from pydantic import Field

from builder.model.source.electrical import Electrical, Names
from builder.model.source.reached import Reached, ReachedThing
from builder.model.values.base import Frozen, Short, SourcedMass
from builder.model.values.bounds_of_bodies import Dated, MoneyAmount, PartMass, PartSize, Pieces
from builder.model.values.quantities import Address, Text, Yes


class Price(Short):
    """What one costs where it was seen; `sold_in` pieces come in one purchase and `each` is for one
    piece.
    """

    SHORT: ClassVar[str] = "each"

    each: MoneyAmount | None = None  #: price of one piece
    #: price of one purchase of `sold_in` pieces, where it is not sold singly
    pack: MoneyAmount | None = None
    seen: Dated | None = None  #: the day on which the price was seen
    sold_in: Pieces = 1  #: how many pieces come in one purchase
    link: Address | None = None  #: where it was seen; http or https
    paid_link: Yes = False  #: yes if the link earns the builder money; it is marked so on the page
    shop: Text | None = None  #: name of the shop
    postage: MoneyAmount | None = None  #: postage of the purchase


class PieceSample(Frozen):
    """What pieces of a part weighed that others bought."""

    by: Text  #: who weighed them
    pieces: tuple[PartMass, ...]  #: one reading a piece
    title: Text | None = None  #: title of the build that they are in


class Part(Electrical):
    """A bought (or printed) thing, described once on the shelf."""

    KIND: ClassVar[str] = "other"
    GROUP: ClassVar[str] = "other"

    kind: Text  #: the kind of part, which decides what else it may say
    name: Text  #: its name as people know it
    maker: Text | None = None  #: who makes it
    mass: SourcedMass | None = None  #: what one piece weighs
    mass_with: Names = ()  #: what lay on the scale with it, such as its leads or its screws
    price: Price | None = None  #: what one piece costs where it was seen
    size: PartSize | None = None  #: outer size along its own axes
    #: what must be reached on it once it is built in: usb, card or button
    reach: dict[ReachedThing, Reached] = Field(default_factory=dict)
    note: Text | None = None  #: a remark shown beside it
    licence: Text | None = None  #: licence of a printed part's file
    alternatives: tuple[Text, ...] = ()  #: shelf parts that could stand in its place
    conducts: Yes | None = None  #: yes if its surface conducts, such as carbon fibre
    samples: tuple[PieceSample, ...] = ()  #: what other people's pieces of it weighed
    invented: Text | None = None  #: yes for a made-up part; a sheet that rests on one says so
    serial_number: Text | None = None  #: never published; its presence is a fault

    @property
    def group(self) -> str:
        """The group under which tables list it."""
        return self.GROUP
