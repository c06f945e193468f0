"""What somebody wants of a build: bounds of weight, price and time, and what is best within them."""

from dataclasses import dataclass
from typing import Literal

Goal = Literal["longest", "lightest", "cheapest"]


@dataclass(frozen=True)
class BuildWish:
    """Less than `mass` (kg), less than `price` in the site's currency, at least `time` (s) in the air;
    None for no bound.
    """

    goal: Goal = "longest"
    mass: float | None = None
    price: float | None = None
    time: float | None = None

    @property
    def is_bounded(self) -> bool:
        """Whether any bound is set."""
        return any(bound is not None for bound in (self.mass, self.price, self.time))

    def is_met(self, mass: float, price: float, time: float) -> bool:
        """Whether three figures are within the bounds, none of them rounded."""
        light = self.mass is None or mass < self.mass
        cheap = self.price is None or price < self.price
        return light and cheap and (self.time is None or time >= self.time)

    def order(self, mass: float, price: float, time: float) -> tuple[float, float, float]:
        """What is best sorts first."""
        orders = {
            "longest": (-time, mass, price),
            "lightest": (mass, -time, price),
            "cheapest": (price, -time, mass),
        }
        return orders[self.goal]
