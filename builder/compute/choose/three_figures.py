"""The three figures that a selection is chosen by: flying weight, price with its one battery, time in
the air. Each is the one that the sheet of that build shows.
"""

from dataclasses import dataclass

from builder.compute.choose.on_demand import OnDemand
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown
from builder.compute.money.budget import Budget, budget
from builder.compute.money.price_figures import price_total
from builder.model.build import Build


@dataclass(frozen=True, eq=False)
class ThreeFigures:
    """Weight in kg, price in the site's currency, time in s. `unpriced` parts are not in the price."""

    mass: Figure
    price: Figure
    time: MaybeFigure
    unpriced: tuple[str, ...]

    @property
    def of_known(self) -> tuple[float, float, float] | None:
        """Weight, price, and time turned round, so that less is better; None where one is not known
        whole.
        """
        if self.mass.lacks or self.unpriced or isinstance(self.time, Unknown):
            return None
        return self.mass.value, self.price.value, -self.time.value


def price_with_battery(build: Build, money: Budget, pack: str) -> tuple[Figure, tuple[str, ...]]:
    """What the build costs with one of its batteries, and which parts of it have no price."""
    battery = next(x for x in money.packs if x.key == f"pack-{pack}")
    lines = (*money.lines, battery)
    label = f"What this build costs, with battery {pack}"
    figure = price_total(build, f"with-{pack}", label, [x.used_figure for x in lines])
    return figure, tuple(x.label for x in lines if x.used is None)


def three_figures(build: Build, made: OnDemand) -> ThreeFigures:
    """The figures of a build that flies on one battery."""
    pack = next(iter(build.packs))
    price, unpriced = price_with_battery(build, budget(build), pack)
    time = made.flight.packs[pack].endurance_styled
    return ThreeFigures(made.all_up[pack], price, time, unpriced)
