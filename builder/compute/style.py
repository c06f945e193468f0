"""What the log teaches: mean power over hover power, flight by flight, with an honest band when they are few."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import log

from builder.compute.energy import Energy
from builder.compute.figure import Figure, Known, apply, formula, leaf
from builder.compute.formulas.few_samples import mean_margin, next_margin, pooled_spread
from builder.compute.formulas.flying import logged_style
from builder.compute.formulas.packs import style_over_flights
from builder.compute.formulas.statistics import log_spread, robust_distance
from builder.model.build import Build

USUAL_STYLE = (1.5, 0.3)  # calm camera flying (common practice, no source)
PRIOR_LOG_SPREAD, PRIOR_FREEDOM = 0.12, 3.0  # of one pilot's flights, until the log knows better (common practice)
OUTLIER = 3.5  # robust distances (Iglewicz and Hoaglin, 1993)
_BAND = 0.80
_Z80 = 1.2815515655446004


@dataclass(frozen=True, eq=False)
class LoggedFlight:
    """One flight of the log with its factor; left out where it says too little or lies far off."""

    index: int
    pack: str
    minutes: float
    factor: Known
    outlier: bool
    left_out: str


@dataclass(frozen=True, eq=False)
class Style:
    """The mean style factor, that of the next flight (for predictions), from how many flights, and each of them."""

    factor: Known
    following: Known
    flights: tuple[LoggedFlight, ...]
    used: int
    note: str


def _logged(build: Build, i: int, levels: Mapping[str, tuple[Known, Energy]]) -> LoggedFlight | None:
    entry = build.source.flights[i]
    minutes = entry.airborne.value / 60
    if entry.used is None or entry.pack not in levels:
        return None
    power, energy = levels[entry.pack]
    key = f"{build.name}/log/{i + 1}"
    used = leaf(
        f"{key}/used",
        f"Charge of flight {i + 1}",
        entry.used.value,
        "C",
        own=entry.used.spread or 0.03 * entry.used.value,
        basis="measured",
        where=build.where("flights", i, "used"),
    )
    time = leaf(
        f"{key}/airborne",
        f"Time of flight {i + 1}",
        entry.airborne.value,
        "s",
        own=entry.airborne.spread or 3.0,
        basis="measured",
        where=build.where("flights", i, "airborne"),
    )
    factor = apply(
        f"{key}/style", f"Style factor of flight {i + 1}", formula(logged_style), used, energy.mean_volts, time, power
    )
    return LoggedFlight(i, entry.pack, minutes, factor, False, "left out by the builder" if entry.leave_out else "")


def _marked(flights: tuple[LoggedFlight, ...]) -> tuple[LoggedFlight, ...]:
    """The same flights with outliers marked: far from the median in logarithms, five flights or more."""
    values = [log(f.factor.value) for f in flights if isinstance(f.factor, Figure) and not f.left_out]
    if len(values) < 5:
        return flights
    out = []
    for f in flights:
        far = (
            isinstance(f.factor, Figure) and not f.left_out and robust_distance(log(f.factor.value), *values) > OUTLIER
        )
        out.append(
            LoggedFlight(f.index, f.pack, f.minutes, f.factor, far, "far from the other flights" if far else f.left_out)
        )
    return tuple(out)


def margins_of(factors: tuple[float, ...]) -> tuple[float, float]:
    """Spread in logarithms [1] of the mean factor and of the next flight's: 80 % half widths over the normal's."""
    n = float(len(factors))
    sample = log_spread(*factors) if len(factors) > 1 else 0.0
    pooled, freedom = pooled_spread(PRIOR_LOG_SPREAD, PRIOR_FREEDOM, sample, n), PRIOR_FREEDOM + n - 1
    return mean_margin(pooled, n, freedom, _BAND) / _Z80, next_margin(pooled, n, freedom, _BAND) / _Z80


def style_of(build: Build, levels: Mapping[str, tuple[Known, Energy]]) -> Style:
    """The builder's style from the log, else as stated, else the usual one. `levels`: hover power, energy by pack."""
    logged = (_logged(build, i, levels) for i in range(len(build.source.flights)))
    flights = _marked(tuple(f for f in logged if f is not None))
    factors = [f.factor for f in flights if isinstance(f.factor, Figure) and not f.left_out]
    key, label = f"{build.name}/style", "Style factor"
    if factors:
        mean, following = margins_of(tuple(f.value for f in factors))
        note = f"from {len(factors)} flights"
        made, ahead = (
            apply(
                f"{key}{end}",
                words,
                formula(style_over_flights),
                leaf(f"{key}/scatter{end}", scatter, 1.0, "1", own=own, basis="estimate", note=note),
                *factors,
                shape="lognormal",
            )
            for end, words, scatter, own in (
                ("", label, "Scatter of the mean over the flights", mean),
                ("/next", "Style factor of the next flight", "Scatter of the next flight", following),
            )
        )
        said = f"style from {len(factors)} logged flight{'s' if len(factors) > 1 else ''}"
        return Style(made, ahead, flights, len(factors), said)
    stated = build.source.setup.style.factor if build.source.setup.style is not None else None
    if stated is not None:
        own = stated.spread if stated.spread is not None else 0.2
        told = leaf(key, label, stated.value, "1", own=own, basis="setting", where=build.where("setup", "style"))
        return Style(told, told, flights, 0, "style as the builder states it; no flight logged")
    usual = leaf(
        key, label, USUAL_STYLE[0], "1", own=USUAL_STYLE[1], basis="estimate", note="common practice, no source"
    )
    return Style(usual, usual, flights, 0, "usual style; no flight logged")
