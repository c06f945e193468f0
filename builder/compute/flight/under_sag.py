"""Full throttle on other volts than the bench's: exponents of current, thrust and speed over volts.

From 99 pairs of a small motor and a propeller, each measured at full throttle on about 7.4 and
11.1 V (open data under the MIT licence; their table stands in the tests): middles, and the 10 to
90 % of them as spreads. A motor with two bench tables of the same propeller has exponents of its
own.
"""

from dataclasses import dataclass

from builder.compute.figures.figure import Figure, MaybeFigure, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.formulas.constants import UPPER_TENTH
from builder.compute.formulas.rotors.sag import exponent_between
from builder.load.assumed import assumed, assumed_list
from builder.model.build import FittedAs
from builder.model.kinds import Motor
from builder.model.kinds.drive import BenchTable

CURRENT = assumed_list("flight/sag-current")
THRUST = assumed_list("flight/sag-thrust")
SPEED = assumed_list("flight/sag-speed")
_APART = assumed("bench tables/volts-apart")
_OWN_SCATTER = assumed("bench tables/scatter")
NOTE = "by 99 pairs measured at 7.4 and 11.1 V, 10 to 90 % of them as the spread"


@dataclass(frozen=True, eq=False)
class Exponents:
    """Powers of the ratio of volts by which current, thrust and speed at full throttle go."""

    current: MaybeFigure
    thrust: MaybeFigure
    speed: MaybeFigure


def _usual(name: str, words: str, three: tuple[float, ...]) -> Figure:
    middle, low, high = three
    own = (high - low) / 2.0 / UPPER_TENTH
    label = f"Exponent of {words} at full throttle over volts"
    return leaf(f"sag/{name}", label, middle, "1", own=own, basis="estimate", note=NOTE)


def _top(table: BenchTable, what: str) -> tuple[float, float] | None:
    """The largest reading of a table and its volts."""
    if what == "speed" and any(r.rpm is None for r in table.rows):
        return None

    def read(i: int) -> float:
        row = table.rows[i]
        of = {"current": row.current, "thrust": row.thrust, "speed": row.rpm or row.thrust}
        return of[what].value

    best = max(range(len(table.rows)), key=read)
    volts = table.rows[best].volts or table.volts
    return read(best), volts.value


def _own(
    motor: FittedAs[Motor], one: BenchTable, other: BenchTable, what: str
) -> MaybeFigure | None:
    first, second = _top(one, what), _top(other, what)
    if first is None or second is None or min(*first, *second) <= 0.0:
        return None
    key = f"shelf/{motor.shelf}/bench-volts/{what}"
    label = f"Exponent of {what} at full throttle over volts"
    inputs: list[Figure] = []
    for end, words, (value, volts) in (("low", "first", first), ("high", "second", second)):
        own = _OWN_SCATTER * value
        about = f"Largest {what} of the {words} bench table"
        inputs.append(leaf(f"{key}/{end}", about, value, "1", own=own, basis="maker"))
        about = f"Its volts in the {words} bench table"
        inputs.append(constant(f"{key}/{end}-volts", about, volts, "V"))
    note = "by the two bench tables of this motor with this propeller"
    return apply(key, label, formula(exponent_between), *inputs, note=note)


def exponents(motor: FittedAs[Motor] | None, table: BenchTable | None) -> Exponents:
    """Those of a motor with the propeller of a table; by its own tables where two stand far enough
    apart in volts.
    """
    usual = {
        "current": _usual("current", "current", CURRENT),
        "thrust": _usual("thrust", "thrust", THRUST),
        "speed": _usual("speed", "speed", SPEED),
    }
    found: dict[str, MaybeFigure] = dict(usual)
    if motor is not None and table is not None:
        alike = [t for t in motor.part.bench if t.propeller == table.propeller and t is not table]
        alike = [t for t in alike if t.rows and _ratio(t, table) >= _APART]
        other = max(alike, key=lambda t: _ratio(t, table), default=None)
        for what in usual if other is not None else ():
            own = _own(motor, table, other, what) if other is not None else None
            found[what] = own if isinstance(own, Figure) and 0.3 < own.value < 3.0 else usual[what]
    return Exponents(found["current"], found["thrust"], found["speed"])


def _ratio(a: BenchTable, b: BenchTable) -> float:
    low, high = sorted((a.volts.value, b.volts.value))
    return high / low if low > 0.0 else 0.0
