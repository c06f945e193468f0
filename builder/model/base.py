"""What every object of the model has in common: frozen, no unknown keys; values with a basis."""

from typing import Any

from pydantic import BaseModel, ConfigDict, model_validator

from builder.model.quantities import Count, Length, Mass, Quantity, Resistance


class Frozen(BaseModel):
    """A frozen object read from text; an unknown key is a mistake."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True, arbitrary_types_allowed=True)


BASES = ("measured", "maker", "estimate")  # the order of trust: measured wins


class Sourced(Frozen):
    """A value with its basis: `16.4 g` alone is the maker's figure; a group names measured, maker or estimate."""

    @model_validator(mode="before")
    @classmethod
    def _shorthand(cls, value: Any) -> Any:
        return {"maker": value} if isinstance(value, str) else value

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

    measured: Mass | None = None
    maker: Mass | None = None
    estimate: Mass | None = None
    scale: Mass | None = None
    weighed_together: Count | None = None


class SourcedLength(Sourced):
    """A length with its basis."""

    measured: Length | None = None
    maker: Length | None = None
    estimate: Length | None = None


class SourcedResistance(Sourced):
    """A resistance with its basis."""

    measured: Resistance | None = None
    maker: Resistance | None = None
    estimate: Resistance | None = None
