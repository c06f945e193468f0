"""What every object of the model has in common: frozen, no unknown keys; values with a basis."""

from typing import Any, ClassVar, Literal

from pydantic import BaseModel, ConfigDict, model_validator

from builder.model.values.bounds_of_bodies import PartMass, Pieces, ScaleStep
from builder.model.values.bounds_of_circuits import CellOhms, ShuntOhms, WindingOhms
from builder.model.values.quantities import Quantity, Text


class Frozen(BaseModel):
    """A frozen object read from text; an unknown key is a mistake."""

    #: an example of one text that may stand for the whole group, where a class reads such
    AS_TEXT: ClassVar[str] = ""
    #: required keys that a person may leave out: the reader finds them elsewhere
    MAY_LACK: ClassVar[frozenset[str]] = frozenset()

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        populate_by_name=True,
        arbitrary_types_allowed=True,
        defer_build=True,
    )


class Short(Frozen):
    """A group that may be written as one text, which then stands for the key SHORT."""

    SHORT: ClassVar[str]

    @model_validator(mode="before")
    @classmethod
    def _text_alone(cls, value: Any) -> Any:
        return {cls.SHORT: value} if isinstance(value, str) else value


StatedBasis = Literal["measured", "maker", "estimate"]
BASES: tuple[StatedBasis, ...] = (
    "measured",
    "maker",
    "estimate",
)  # the order of trust: measured wins


class Sourced(Short):
    """A value with its basis: `16.4 g` alone is the maker's figure; a group names measured, maker
    or estimate.
    """

    SHORT: ClassVar[str] = "maker"

    def best(self) -> tuple[StatedBasis, Quantity] | None:
        """The basis that is trusted most and its value."""
        for basis in BASES:
            value = getattr(self, basis)
            if value is not None:
                return basis, value
        return None

    def all(self) -> tuple[tuple[StatedBasis, Quantity], ...]:
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

    measured: PartMass | None = None  #: what a scale showed; trusted before all else
    maker: PartMass | None = None  #: the maker's figure
    estimate: PartMass | None = None  #: a guess of the builder's own
    scale: ScaleStep | None = None  #: resolution of the scale
    scale_name: Text | None = None  #: which scale; readings of one scale share its error
    weighed_together: Pieces | None = None  #: how many pieces lay on the scale at once
    #: who measured it, if not the builder: pieces of one's own may differ from it
    measured_by: Text | None = None


class WindingResistance(Sourced):
    """A resistance between two leads of a motor, with its basis."""

    measured: WindingOhms | None = None  #: what was measured; trusted before all else
    maker: WindingOhms | None = None  #: the maker's figure
    estimate: WindingOhms | None = None  #: a guess of the builder's own


class CellResistance(Sourced):
    """A resistance of one cell, with its basis."""

    measured: CellOhms | None = None  #: what was measured; trusted before all else
    maker: CellOhms | None = None  #: the maker's figure
    estimate: CellOhms | None = None  #: a guess of the builder's own


class ShuntResistance(Sourced):
    """A resistance through which a current is measured, with its basis."""

    measured: ShuntOhms | None = None  #: what was measured; trusted before all else
    maker: ShuntOhms | None = None  #: the maker's figure
    estimate: ShuntOhms | None = None  #: a guess of the builder's own
