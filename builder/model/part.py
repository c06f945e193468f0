"""What every part has in common, whatever its kind."""

from typing import Any, ClassVar

from pydantic import Field, model_validator

from builder.model.base import Frozen, SourcedMass
from builder.model.electrical import Electrical, Names
from builder.model.measures import MoneyText, SizeText
from builder.model.quantities import Count, Day, Text, Yes


class Price(Frozen):
    """What one costs where it was seen; `sold_in` pieces come in one purchase and `each` is for one piece."""

    each: MoneyText | None = None
    pack: MoneyText | None = None
    seen: Day | None = None
    sold_in: Count = 1
    link: Text | None = None
    paid_link: Yes = False
    shop: Text | None = None
    postage: MoneyText | None = None

    @model_validator(mode="before")
    @classmethod
    def _one_figure(cls, value: Any) -> Any:
        return {"each": value} if isinstance(value, str) else value


class Part(Electrical):
    """A bought (or printed) thing, described once on the shelf."""

    KIND: ClassVar[str] = "other"
    GROUP: ClassVar[str] = "other"

    kind: Text
    name: Text
    maker: Text | None = None
    mass: SourcedMass | None = None
    mass_with: Names = ()
    price: Price | None = None
    size: SizeText | None = None
    note: Text | None = None
    licence: Text | None = None
    alternatives: tuple[Text, ...] = ()
    conducts: Yes | None = None
    serial_number: Text | None = Field(default=None, description="Never published; its presence is a fault.")

    @property
    def group(self) -> str:
        """The group under which tables list it."""
        return self.GROUP
