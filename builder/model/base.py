"""What every object of the model has in common: frozen, no unknown keys; values with a basis."""

from typing import Any, ClassVar

from pydantic import BaseModel, ConfigDict, model_validator

from builder.model.quantities import Count, Length, Mass, Quantity, Resistance


class Frozen(BaseModel):
    """A frozen object read from text; an unknown key is a mistake."""

    #: an example of one text that may stand for the whole group, where a class reads such
    AS_TEXT: ClassVar[str] = ""

    model_config = ConfigDict(
        frozen=True, extra="forbid", populate_by_name=True, arbitrary_types_allowed=True, defer_build=True
    )


class Short(Frozen):
    """A group that may be written as one text, which then stands for the key SHORT."""

    SHORT: ClassVar[str]

    @model_validator(mode="before")
    @classmethod
    def _text_alone(cls, value: Any) -> Any:
        return {cls.SHORT: value} if isinstance(value, str) else value


BASES = ("measured", "maker", "estimate")  # the order of trust: measured wins


class Sourced(Short):
    """A value with its basis: `16.4 g` alone is the maker's figure; a group names measured, maker or estimate."""

    SHORT: ClassVar[str] = "maker"

    def best(self) -> tuple[str, Quantity] | None:
        """The basis that is trusted most and its value."""
        for basis in BASES:
            value = getattr(self, basis)
            if value is not None:
                return basis, value
        return None

    def all(self) -> tuple[tuple[str, Quantity], ...]:
        """Every basis that is given, most trusted first."""
        return tuple((b, getattr(self, b)) for b in BASES if getattr(self, b) is not None)

    @property
    def value(self) -> float | None:
        """The trusted value in SI, or None."""
        best = self.best()
        return best[1].value if best else None


class SourcedMass(Sourced):
    """A mass; `scale` is the resolution of the scale it was weighed on

    `weighed_together` says how many pieces lay on it at once.
    """

    measured: Mass | None = None  #: what a scale showed; trusted before all else
    maker: Mass | None = None  #: the maker's figure
    estimate: Mass | None = None  #: a guess of the builder's own
    scale: Mass | None = None  #: resolution of the scale
    weighed_together: Count | None = None  #: how many pieces lay on the scale at once


class SourcedLength(Sourced):
    """A length with its basis."""

    measured: Length | None = None  #: what was measured; trusted before all else
    maker: Length | None = None  #: the maker's figure
    estimate: Length | None = None  #: a guess of the builder's own


class SourcedResistance(Sourced):
    """A resistance with its basis."""

    measured: Resistance | None = None  #: what was measured; trusted before all else
    maker: Resistance | None = None  #: the maker's figure
    estimate: Resistance | None = None  #: a guess of the builder's own
