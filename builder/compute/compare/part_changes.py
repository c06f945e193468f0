"""What changes in one place from one build to another: part, weight and money."""

from dataclasses import dataclass
from typing import Literal

from builder.compute.compare.compared_places import ComparedPlace
from builder.compute.figures.figure import MaybeFigure, Unknown, constant
from builder.compute.figures.sums import difference
from builder.model.values.money_text import Money

SMALLEST = 5e-6  # kg: what no page shows is no difference
How = Literal["same", "swapped", "added", "dropped", "recounted"]


@dataclass(frozen=True, eq=False)
class PartChange:
    """One place of the two builds: what stands there in each, and what that does to grams and money
    (second less first).
    """

    key: str
    how: How
    first: str
    second: str
    grams: MaybeFigure | None
    money: Money | Unknown | None
    keys: tuple[str, str] = ("", "")
    counts: tuple[int, int] = (0, 0)

    @property
    def differs(self) -> bool:
        """Whether another part stands there, or the same different weight (by more than 5 mg, or
        not known how much).
        """
        if self.how != "same" or isinstance(self.grams, Unknown):
            return True
        return self.grams is not None and abs(self.grams.value) > SMALLEST


def _same_part(a: ComparedPlace | None, b: ComparedPlace | None) -> bool:
    return (
        a is not None
        and b is not None
        and (a.shelf, a.count) == (b.shelf, b.count)
        and a.shelf != ""
    )


def _grams(key: str, a: ComparedPlace | None, b: ComparedPlace | None) -> MaybeFigure | None:
    """Second less first; None where neither flies."""
    first, second = (p.grams if p is not None else None for p in (a, b))
    if first is None and second is None:
        return None
    if isinstance(first, Unknown) and isinstance(second, Unknown) and _same_part(a, b):
        first = second = None  # whatever it weighs, it weighs it in both
    nothing = constant("nothing", "nothing", 0.0, "kg")
    before = nothing if first is None else first
    after = nothing if second is None else second
    return difference(f"difference/part/{key}", key, "kg", after, before)


def _money(
    a: ComparedPlace | None, b: ComparedPlace | None, currency: str
) -> Money | Unknown | None:
    lacking = tuple(p.name for p in (a, b) if p is not None and p.unpriced)
    if len(lacking) == 2 and _same_part(a, b):
        return Money(0, currency)
    if lacking:
        return Unknown("difference/money", "Money", lacking)
    first, second = (p.money if p is not None else None for p in (a, b))
    known = second or first
    if known is None:
        return None
    before, after = (price.minor if price else 0 for price in (first, second))
    return Money(after - before, known.currency)


def _how(a: ComparedPlace | None, b: ComparedPlace | None) -> How:
    if a is None or b is None:
        return "added" if a is None else "dropped"
    if a.shelf != b.shelf:
        return "swapped"
    return "same" if a.count == b.count else "recounted"


def part_change_of(a: ComparedPlace | None, b: ComparedPlace | None, currency: str) -> PartChange:
    """The change in one place: what is there in each, how it changed, and by how much."""
    known = a or b
    assert known is not None  # a pair has at least one side
    key = known.key if a is None or b is None or a.key == b.key else f"{a.key}, {b.key}"
    first, second = (p.name if p is not None else "" for p in (a, b))
    keys = _key_of(a), _key_of(b)
    counts = _count_of(a), _count_of(b)
    return PartChange(
        key, _how(a, b), first, second, _grams(key, a, b), _money(a, b, currency), keys, counts
    )


def _key_of(place: ComparedPlace | None) -> str:
    return place.key if place is not None else ""


def _count_of(place: ComparedPlace | None) -> int:
    return place.count if place is not None else 0
