"""What the batteries of a build are for: the one that it is lightest on, the one that it flies longest
on, the one that it was flown on most. By these two builds are compared, not by what a battery is
called.
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from builder.compute.figures.figure import Figure, MaybeFigure
from builder.compute.results import Results
from builder.model.build import Build

PURPOSES = ("lightest", "longest", "as flown")


@dataclass(frozen=True, slots=True)
class BatteryUse:
    """The battery that serves a purpose, '' for none, and those that could not be looked at."""

    purpose: str
    pack: str
    not_known: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class UsePair:
    """Purposes that the same two batteries serve, one of each build."""

    purposes: tuple[str, ...]
    packs: tuple[str, str]

    @property
    def key(self) -> str:
        """Its name in keys and addresses: that of the first purpose."""
        return self.purposes[0].replace(" ", "-")


def _known(figures: Mapping[str, MaybeFigure]) -> tuple[dict[str, float], tuple[str, ...]]:
    values = {k: f.value for k, f in figures.items() if isinstance(f, Figure)}
    return values, tuple(k for k in figures if k not in values)


def _lightest(results: Results) -> BatteryUse:
    """A battery of unknown weight would seem to weigh nothing."""
    weights: dict[str, MaybeFigure] = {}
    for pack, figure in results.mass.all_up.items():
        own = results.mass.packs[pack].line
        weights[pack] = figure if isinstance(own, Figure) else own
    values, lacking = _known(weights)
    return BatteryUse("lightest", min(values, key=values.__getitem__, default=""), lacking)


def _longest(results: Results) -> BatteryUse:
    times = {pack: f.endurance_styled for pack, f in results.flight.packs.items()}
    values, lacking = _known(times)
    return BatteryUse("longest", max(values, key=values.__getitem__, default=""), lacking)


def _as_flown(build: Build) -> BatteryUse:
    """The battery of most flights that count; of as many the one that was flown last."""
    flights = [f for f in build.source.flights if not f.leave_out and f.pack in build.packs]
    often = Counter(f.pack for f in flights)
    last = {f.pack: f.date for f in sorted(flights, key=lambda f: f.date)}
    most = max(often, key=lambda pack: (often[pack], last[pack]), default="")
    return BatteryUse("as flown", most)


def purposes_of(build: Build, results: Results) -> tuple[BatteryUse, ...]:
    """One for each of PURPOSES, in their order. It looks at this build alone."""
    return _lightest(results), _longest(results), _as_flown(build)


def paired(first: tuple[BatteryUse, ...], second: tuple[BatteryUse, ...]) -> tuple[UsePair, ...]:
    """What both have a battery for; purposes of the same two batteries are one."""
    out: dict[tuple[str, str], tuple[str, ...]] = {}
    for one, other in zip(first, second, strict=True):
        if one.pack and other.pack:
            packs = one.pack, other.pack
            out[packs] = (*out.get(packs, ()), one.purpose)
    return tuple(UsePair(names, packs) for packs, names in out.items())


def unused(build: Build, uses: tuple[BatteryUse, ...]) -> tuple[str, ...]:
    """Batteries that serve none of the purposes."""
    used = {use.pack for use in uses}
    return tuple(pack for pack in build.packs if pack not in used)
