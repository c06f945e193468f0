"""What other pages need to know of a build: small, plain, kept in the manifest so that no build is
read twice.
"""

from dataclasses import asdict
from typing import Any

from builder.compute.figures.at_least import reading_of
from builder.compute.figures.figure import MaybeFigure, Unknown
from builder.frozen import value_class


@value_class(frozen=True, slots=True)
class SummaryNumber:
    """A figure in SI with its spread; `value` is None for what is not known.

    `lacks` where it leaves something out; `reads` is then what stands before it, 'at least' mostly.
    """

    value: float | None
    spread: float
    unit: str
    lacks: bool = False
    anchor: str = ""
    reads: str = ""

    @classmethod
    def of(cls, figure: MaybeFigure) -> "SummaryNumber":
        """The summary of a figure."""
        if isinstance(figure, Unknown):
            return cls(None, 0.0, "", anchor="")
        return cls(
            figure.value,
            figure.spread,
            figure.unit,
            bool(figure.lacks),
            figure.anchor,
            reading_of(figure),
        )


@value_class(frozen=True, slots=True)
class Summary:
    """One build in the table of all builds, in feeds and on part pages.

    `numbers` holds, where they are known: dry, all-up (per pack as `all-up/<pack>`),
    endurance/<pack>, price, rotors, wheelbase, disc. `changes` are (date, text) pairs; `parts` are
    (key, shelf name, count). `weighed` are (key, shelf name, readings of single pieces in kg),
    `alternatives` (key, shelf name, what may stand in its place), `replaced` (date, shelf name,
    what broke), `price_at_least` whether a part has no price, `payload` the parts that it carries,
    which all-up holds. `tried` are alternatives that were judged (key, name of the shelf of what may
    stand there, answer, grams more), `flown` are batteries in the log (shelf name, flights, mean s in
    the air). `picture` is the address and the words of the one that stands for the build; `rotors`
    are those of a build without one: m forward and left of the middle, and the radius;
    `superseded_by` is the build that took its place; `changed` says for each change what it did to numbers and which
    chapters it changed, `chapters` are those of its guide (name, title). A manifest of an older version may lack these.
    """

    name: str
    title: str
    summary: str
    status: str
    revised: str
    based_on: str
    numbers: dict[str, SummaryNumber]
    price_minor: int | None
    currency: str
    packs: tuple[str, ...]
    packs_used: tuple[str, ...]
    parts: tuple[tuple[str, str, int], ...]
    changes: tuple[tuple[str, str], ...]
    flights: int
    remarks: int
    accepted: int
    kept: bool = False
    draft: bool = False
    weighed: tuple[tuple[str, str, tuple[float, ...]], ...] = ()
    alternatives: tuple[tuple[str, str, str], ...] = ()
    replaced: tuple[tuple[str, str, str], ...] = ()
    price_at_least: bool = False
    payload: tuple[str, ...] = ()
    tried: tuple[tuple[str, str, str, float | None], ...] = ()
    flown: tuple[tuple[str, int, float], ...] = ()
    picture: tuple[str, ...] = ()
    rotors: tuple[tuple[float, float, float], ...] = ()
    superseded_by: str = ""
    changed: tuple[str, ...] = ()
    chapters: tuple[tuple[str, str], ...] = ()

    @property
    def uses(self) -> frozenset[str]:
        """Names of the shelf of its parts and packs."""
        return frozenset(p[1] for p in self.parts).union(self.packs_used)

    def as_plain(self) -> dict[str, Any]:
        """Plain values, for the manifest."""
        return asdict(self)

    @classmethod
    def from_plain(cls, plain: dict[str, Any]) -> "Summary":
        """The summary that `as_plain` wrote."""
        fields = dict(plain)
        fields["numbers"] = {k: SummaryNumber(**v) for k, v in plain["numbers"].items()}
        for key in (
            "packs",
            "packs_used",
            "parts",
            "changes",
            "weighed",
            "alternatives",
            "replaced",
            "payload",
            "tried",
            "flown",
            "picture",
            "rotors",
            "changed",
            "chapters",
        ):
            fields[key] = _tuples(plain.get(key, ()))
        return cls(**fields)


def _tuples(value: Any) -> Any:
    """Lists within lists as tuples."""
    return tuple(_tuples(i) for i in value) if isinstance(value, list | tuple) else value
