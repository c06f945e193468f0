"""Full throttle against what carries it: the pack, its connector, the speed controller and the
motor.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from builder.compute.circuit.rails import PowerPlan
from builder.compute.figures.figure import MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import difference
from builder.compute.formulas.electric.electronics import shared_current
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.kinds import Motor, SpeedController

_BAND = assumed("flight/band")


@dataclass(frozen=True, eq=False)
class PeakLimit:
    """One piece on one pack: what it may carry (A), what it carries, and for how many seconds its
    maker allows that.

    `each` is set where both are of one motor; `lasting` (A) is what it bears without a break, where
    the limit is for a short time.
    """

    pack: str
    what: str
    limit: MaybeFigure
    current: MaybeFigure
    each: bool
    seconds: float | None
    lasting: float | None = None

    @property
    def close(self) -> bool:
        """Whether its limit lies within the band of what it carries, which then settles nothing."""
        if isinstance(self.limit, Unknown) or isinstance(self.current, Unknown):
            return False
        low, high = self.current.band(_BAND)
        return low <= self.limit.value <= high

    @property
    def over(self) -> bool | None:
        """Whether it carries more than it may; None where that is not known."""
        if isinstance(self.limit, Unknown) or isinstance(self.current, Unknown):
            return None
        return self.current.value > self.limit.value


def _limit(key: str, label: str, value: float | None, where: Where) -> MaybeFigure:
    if value is None:
        return Unknown(key, label, (label[0].lower() + label[1:],))
    return leaf(key, label, value, "A", where=where)


def _of_pack(build: Build, name: str, current: MaybeFigure) -> Iterator[PeakLimit]:
    pack = build.packs[name]
    part, key = pack.part, f"shelf/{pack.shelf}"
    rate = part.discharge.current(part.capacity.value) if part.discharge and part.capacity else None
    whole = rate * pack.use.parallel if rate is not None else None
    label = f"Marked discharge of battery {name}"
    end = f"-{pack.use.parallel}" if pack.use.parallel > 1 else ""
    limit = _limit(f"{key}/discharge{end}", label, whole, pack.shelf_where.at("discharge"))
    yield PeakLimit(name, "Battery", limit, current, False, None)
    joint = part.connector
    most = (joint.short or joint.continuous) if joint is not None else None
    label = f"Short current of the connector of battery {name}"
    limit = _limit(
        f"{key}/connector", label, most.value if most else None, pack.shelf_where.at("connector")
    )
    lasting = joint.continuous if joint is not None and joint.short and joint.continuous else None
    bears = lasting.value if lasting is not None else None
    yield PeakLimit(name, "Connector", limit, current, False, None, bears)


def _of_boards(build: Build, pack: str, each: MaybeFigure) -> Iterator[PeakLimit]:
    for c in build.of_kind(SpeedController):
        lasting = c.part.continuous.value if c.part.continuous else None
        burst = c.part.burst.current if c.part.burst else lasting
        label = f"Burst current of one channel of {c.key}"
        limit = _limit(f"shelf/{c.shelf}/burst", label, burst, c.shelf_where.at("burst"))
        yield PeakLimit(
            pack, c.part.name, limit, each, True, c.part.burst.seconds if c.part.burst else None
        )
    for m in build.of_kind(Motor):
        peak = m.part.peak
        label = f"Largest current of {m.key}"
        limit = _limit(
            f"shelf/{m.shelf}/peak",
            label,
            peak.current.value if peak else None,
            m.shelf_where.at("peak"),
        )
        seconds = peak.for_.value if peak is not None and peak.for_ is not None else None
        yield PeakLimit(pack, m.part.name, limit, each, True, seconds)


def peak_limits(
    build: Build, rotors: int, power: PowerPlan, peaks: Mapping[str, MaybeFigure]
) -> tuple[PeakLimit, ...]:
    """Each carrier on each pack. `peaks` are currents at full throttle on a full pack, by pack."""
    out: list[PeakLimit] = []
    for pack, current in peaks.items():
        key = f"{build.name}/flight/{pack}/full"
        motors = difference(
            f"{key}/motors",
            "Current of the motors at full throttle",
            "A",
            current,
            power.standing_current,
        )
        count = constant(f"{build.name}/rotors", "Number of rotors", float(max(rotors, 1)), "1")
        each = apply(
            f"{key}/each",
            "Current of one motor at full throttle",
            formula(shared_current),
            motors,
            count,
        )
        out += [*_of_pack(build, pack, current), *(_of_boards(build, pack, each) if rotors else ())]
    return tuple(out)
