"""What all joints of a build share: the solder, its melting, the air, and how hot a joint must get."""

from dataclasses import dataclass

from builder.compute.figures.figure import Figure, MaybeFigure, constant
from builder.compute.figures.sums import difference, total
from builder.compute.formulas.constants import ZERO_CELSIUS
from builder.compute.formulas.soldering.solder import ALLOYS, Alloy
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.kinds import Consumable

ZERO = ZERO_CELSIUS
_AMBIENT = assumed("soldering/air")  # °C
_OVER = assumed("soldering/wets-above")


@dataclass(frozen=True, eq=False)
class SolderingBench:
    """What all joints of a build share: the alloy, its liquidus, the air, the working temperature
    (K).
    """

    alloy: Alloy
    liquidus: Figure
    ambient: Figure
    working: Figure
    excess: MaybeFigure


def alloy_of(build: Build) -> tuple[Alloy, float, str]:
    """The build's solder: its handbook entry, its liquidus in K, and where that is known from."""
    for fitted in build.of_kind(Consumable):
        part = fitted.part
        if part.alloy is None and part.melts is None:
            continue
        free = part.leaded is False or (part.melts is not None and part.melts.high > 205.0)
        alloy = next(
            (a for a in ALLOYS if a.name == part.alloy),
            next(a for a in ALLOYS if a.lead_free == free),
        )
        if part.melts is not None:
            return alloy, part.melts.high + ZERO, f"shelf/{fitted.shelf}/melts"
        return alloy, alloy.liquidus, f"heat/{alloy.name}/liquidus"
    return ALLOYS[0], ALLOYS[0].liquidus, f"heat/{ALLOYS[0].name}/liquidus"


def bench_of(build: Build) -> SolderingBench:
    """Temperatures that all joints of a build share."""
    alloy, melts, key = alloy_of(build)
    liquidus = constant(
        key,
        f"Liquidus of the solder, {alloy.name}",
        melts,
        "K",
        "as the shelf says, else a handbook",
    )
    ambient = constant("heat/ambient", "Air at the bench", _AMBIENT + ZERO, "K", "assumed")
    over = constant(
        "heat/over", "Above liquidus at which solder wets", _OVER, "K", "common practice, no source"
    )
    working = total(
        f"{build.name}/heat/working", "Working temperature of a joint", "K", (liquidus, over)
    )
    excess = difference(f"{build.name}/heat/excess", "Joint above the air", "K", working, ambient)
    return SolderingBench(alloy, liquidus, ambient, working, excess)
