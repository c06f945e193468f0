"""Every field of the model that holds a number has bounds of its own, and what lies outside is said
at its place.
"""

from collections.abc import Iterator
from datetime import date
from typing import Annotated, Any, get_args, get_origin

import pytest
from pydantic import ValidationError
from pydantic_core import PydanticCustomError

from builder.model.kinds import KINDS
from builder.model.site import Site
from builder.model.source.build_source import Accept, BuildSource
from builder.model.source.describe import _hints
from builder.model.values.base import Frozen
from builder.model.values.bounds import Within
from builder.model.values.bounds_of_bodies import AirTemperature, PartMass
from builder.model.values.lengths_text import Pattern, Position, Size
from builder.model.values.measures import AtVolts, Burst, Cells, Gauge, Rate
from builder.model.values.money_text import Money
from builder.model.values.quantities import Quantity, QuantityRange, Reads
from builder.model.values.units import DIMENSIONS
from builder.pages.site.field_page import field_page
from builder.render.data.schemas import schema_files

NUMBERS = (
    Quantity,
    QuantityRange,
    int,
    date,
    Money,
    Pattern,
    Gauge,
    Cells,
    Burst,
    AtVolts,
    Rate,
    Size,
    Position,
)


def _annotated(hint: Any) -> Iterator[tuple[Any, tuple[Any, ...]]]:
    """Every plain type inside an annotation, with what annotates it; a class of the model leads
    into its fields.
    """
    if get_origin(hint) is Annotated:
        inner, *marks = get_args(hint)
        if get_origin(inner) is None and isinstance(inner, type):
            yield inner, tuple(marks)
            return
        yield from _annotated(inner)
        return
    if isinstance(hint, type) and get_origin(hint) is None:
        yield hint, ()
    for inner in get_args(hint):
        yield from _annotated(inner)


def _fields(model: type[Frozen], seen: set[type]) -> Iterator[tuple[str, type, tuple[Any, ...]]]:
    if model in seen:
        return
    seen.add(model)
    for name, hint in _hints(model).items():
        if name not in model.model_fields:
            continue
        for kind, marks in _annotated(hint):
            if issubclass(kind, Frozen):
                yield from _fields(kind, seen)
            else:
                yield f"{model.__name__}.{name}", kind, marks


# Figures of whatever a rule computes, which are compared with it: no kind of thing, so no bounds.
OF_ANY_KIND = {"Accept.up_to", "Accept.down_to", "Change.was"}


def all_number_fields() -> list[tuple[str, type, tuple[Any, ...]]]:
    seen: set[type] = set()
    models: tuple[type[Frozen], ...] = (Site, BuildSource, *KINDS.values())
    found = [f for model in models for f in _fields(model, seen)]
    return [
        (name, kind, marks)
        for name, kind, marks in found
        if kind in NUMBERS and kind is not bool and name not in OF_ANY_KIND
    ]


FIELDS = all_number_fields()


def test_the_walk_finds_the_fields_that_people_know() -> None:
    names = {name for name, _, _ in FIELDS}
    known = {
        "SourcedMass.measured",
        "Pack.capacity",
        "Rail.volts",
        "Site.bands",
        "Wire.trim_to",
        "Flight.used",
    }
    assert (
        known
        | {
            "BenchRow.thrust",
            "PartUse.each_at",
            "RotationPlan.outputs",
            "Flight.date",
            "Price.each",
        }
        <= names
    )
    assert len(FIELDS) > 180


@pytest.mark.parametrize("name", ["up_to", "down_to"])
def test_an_accepted_figure_of_any_kind_is_a_number_still(name: str) -> None:
    said = {"rule": "pack/discharge-limit", "at": "pack-4s-650", "because": "gently flown"}
    for given in ("96 A", "5 mm"):
        assert getattr(Accept.model_validate({**said, name: given}), name).value > 0
    for given in ("1e999 A", "nan A", "much", "96 knots"):
        with pytest.raises(ValidationError):
            Accept.model_validate({**said, name: given})


def test_a_field_with_numbers_has_bounds_and_says_why() -> None:
    for name, kind, marks in FIELDS:
        bounds = [m for m in marks if isinstance(m, Within)]
        assert len(bounds) == 1, (
            f"{name} ({kind.__name__}) takes any number: give it a type of bounds_of_…"
        )
        (limits,) = bounds
        assert len(limits.why) > 10 and not limits.why.endswith("."), name
        assert all(bound.low < bound.high for bound in limits.bounds), name


def _beyond(text: str) -> str:
    """A bound as it is written, a hundredth and a bit further up: `20 kg` is `20.21 kg`."""
    number, blank, unit = text.partition(" ")
    return f"{float(number) * 1.01 + 0.01:.6g}{blank}{unit}"


def test_each_quantity_is_taken_at_its_bounds_and_refused_beyond() -> None:
    for name, kind, marks in FIELDS:
        if kind not in (Quantity, QuantityRange):
            continue
        limits = next(m for m in marks if isinstance(m, Within))
        reads = next(m for m in marks if isinstance(m, Reads))
        (bound,) = limits.bounds
        for text in (bound.least, bound.most):
            assert limits.func(text, reads.func) == reads.func(text), name  # type: ignore[call-arg, arg-type]
        with pytest.raises(PydanticCustomError, match=r"cannot be right here: (more|hotter) than"):
            limits.func(_beyond(bound.most), reads.func)  # type: ignore[call-arg, arg-type]


def test_a_spread_is_no_wider_than_its_value_can_be() -> None:
    class Weight(Frozen):
        mass: PartMass
        air: AirTemperature

    assert Weight.model_validate({"mass": "10 ± 10 g", "air": "0 ± 5 degC"}).air.spread == 5
    for given, problem in (
        ({"mass": "10 ± 11 g", "air": "0 degC"}, "more than the value itself"),
        ({"mass": "10 ± -1 g", "air": "0 degC"}, "less than nothing"),
        ({"mass": "10 ± 1e999 g", "air": "0 degC"}, "more than the value itself"),
        ({"mass": "10 g", "air": "0 ± 200 degC"}, "wider than all that is taken"),
    ):
        with pytest.raises(ValidationError, match=problem):
            Weight.model_validate(given)


def test_no_unit_has_bounds_of_its_own_any_more() -> None:
    assert not hasattr(DIMENSIONS["mass"], "high")


def test_field_reference_and_schema_show_the_bounds() -> None:
    assert "; taken is 0 g to 20 kg: nothing at all where it is weighed with another part" in repr(
        field_page()
    )
    schema = schema_files()["schema/shelf.json"].decode()
    assert "Taken is 5 mAh to 100 Ah: the smallest batteries" in schema
