"""A plug that joins unlike contacts.

Checks: each pair that a plugged cable joins: supply to supply, ground to ground, output to input.
The pairs come from the physical order of both sockets and from how the cable is made. A cable that
the build describes in another way than the shelf is a fault too, and the wiring is checked both
ways.
Why: a reversed or shifted harness puts the battery's volts on a signal contact; it is a leading killer
of boards.
Example: a straight cable between sockets whose orders run against each other.
Mend: take the cable that lies the other way, or re-pin one end; beep-test every contact before it
is plugged.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.circuit.contacts import (
    CableLie,
    Join,
    cable_of,
    is_belied,
    joins_as,
    plug_joins,
)
from builder.compute.circuit.print_pads import by_print, doubt_words
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Build, Contact, PlugJoin
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.wiring._nets import is_live, unlike

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING


def _shorts(build: Build, wrong: list[Join]) -> bool:
    """Whether a pair puts a supply on a ground."""
    pads = [(build.pad(p.a), build.pad(p.b)) for p in wrong]
    return any({"ground"} < {a.role, b.role} and (is_live(a) or is_live(b)) for a, b in pads)


def _in_doubt(build: Build, made: tuple[Join, ...]) -> tuple[Contact, ...]:
    """Contacts of a plug that are known by their print only: its order rests on them."""
    return tuple(c for pair in made for c in (pair.a, pair.b) if by_print(build.pad(c)))


def _shown(build: Build, wrong: list[Join]) -> str:
    ends = [(f"{c} ({build.pad(c).role})" for c in (p.a, p.b)) for p in wrong[:4]]
    pairs = "; ".join(" to ".join(both) for both in ends)
    return f"{pairs}{' and more' if len(wrong) > 4 else ''}"


def _mend(build: Build, join: PlugJoin) -> str:
    """What mends it: a cable that lies the other way only where that one joins like to like."""
    for lies in ("straight", "reversed"):
        made = joins_as(build, join, lies)
        if made and not unlike(build, made):
            return f"Take a cable that lies {lies}, or re-pin one end; beep-test it first."
    return (
        "No cable that lies straight or reversed fixes this: re-pin one end contact by contact, and"
        " beep-test it first."
    )


def _word(lies: CableLie) -> str:
    return lies if isinstance(lies, str) else "by a table of its own"


def _lies_otherwise(build: Build, join: PlugJoin) -> Found | None:
    """The cable on the shelf against the word beside the plug, where both say how it lies."""
    cable = cable_of(build, join)
    if (
        cable is None
        or cable.part.lies is None
        or join.plug.cable is None
        or not is_belied(build, join)
    ):
        return None
    return Found(
        f"The build says that {cable.key} lies {_word(join.plug.cable)}; {cable.part.name} on the"
        f" shelf lies {_word(cable.part.lies)}.",
        "Beep-test the cable contact by contact before it is plugged, and correct the one that is"
        " wrong.",
        join.where.at("cable"),
        see=(cable.shelf_where.at("lies"),),
    )


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for join in build.plugs:
        made = plug_joins(build, join)
        wrong, belied = unlike(build, made), _lies_otherwise(build, join)
        if belied is not None:
            yield belied
        if not made:
            yield NotJudged(
                f"how the cable between {join.plug.from_} and {join.plug.to} lies", join.where
            )
        elif wrong:
            yield Found(
                f"This plug joins unlike contacts: {_shown(build, wrong)}.",
                _mend(build, join),
                join.where,
                signal=Signal.DANGER if _shorts(build, wrong) else None,
            )
        elif belied is None:
            doubt = _in_doubt(build, made)
            yield NotJudged(doubt_words(doubt), join.where) if doubt else Judged()
