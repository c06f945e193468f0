"""What the log teaches: mean power over hover power, flight by flight, with an honest band when
they are few.
"""

from dataclasses import dataclass, replace
from math import log
from statistics import median, stdev

from builder.compute.figures.figure import Figure, MaybeFigure, apply, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.flight.log import LoggedFlight
from builder.compute.formulas.constants import UPPER_TENTH
from builder.compute.formulas.electric.flight_log import usual_share_left
from builder.compute.formulas.electric.packs import style_over_flights
from builder.compute.formulas.uncertainty.few_samples import mean_margin, next_margin, pooled_spread
from builder.compute.formulas.uncertainty.statistics import log_spread, robust_distance
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build

USUAL_STYLE = assumed_list("flight log/usual-style")
PRIOR_LOG_SPREAD = assumed("flight log/style-spread")
PRIOR_FREEDOM = assumed("flight log/style-freedom")
LEAST_LEFT_SPREAD = assumed("flight log/left-spread")
OUTLIER = assumed("flight log/outlier")
NEAR = assumed("flight log/near")
_BAND = assumed("flight/band")


@dataclass(frozen=True, eq=False)
class FlyingStyle:
    """The mean style factor, that of the next flight (for predictions), from how many flights, and
    each of them.

    `left` is the share of the charge with which the builder lands, None where no charger counted
    it. `build` is the build whose log it is.
    """

    factor: MaybeFigure
    following: MaybeFigure
    left: MaybeFigure | None
    flights: tuple[LoggedFlight, ...]
    used: int
    note: str
    build: str


def _marked(flights: tuple[LoggedFlight, ...]) -> tuple[LoggedFlight, ...]:
    """The same flights with outliers marked: far from the median in logarithms, up or down, five
    flights or more.
    """
    values = [
        log(f.factor.value) for f in flights if isinstance(f.factor, Figure) and not f.left_out
    ]
    if len(values) < 5:
        return flights
    middle = median(values)
    out = []
    for f in flights:
        here = log(f.factor.value) if isinstance(f.factor, Figure) and not f.left_out else middle
        far = abs(robust_distance(here, *values)) > OUTLIER and abs(here - middle) > NEAR
        out.append(replace(f, outlier=True, left_out="far from the other flights") if far else f)
    return tuple(out)


def margins_of(factors: tuple[float, ...]) -> tuple[float, float]:
    """Spread in logarithms [1] of the mean factor and of the next flight's: 80 % half widths over
    the normal's.
    """
    n = float(len(factors))
    sample = log_spread(*factors) if len(factors) > 1 else 0.0
    pooled, freedom = (
        pooled_spread(PRIOR_LOG_SPREAD, PRIOR_FREEDOM, sample, n),
        PRIOR_FREEDOM + n - 1,
    )
    return (
        mean_margin(pooled, n, freedom, _BAND) / UPPER_TENTH,
        next_margin(pooled, n, freedom, _BAND) / UPPER_TENTH,
    )


def _left(name: str, flights: tuple[LoggedFlight, ...]) -> MaybeFigure | None:
    """Share of the charge with which the builder lands, by the flights that a charger counted."""
    shares = [
        f.left
        for f in flights
        if f.counted == "charge" and not f.left_out and isinstance(f.left, Figure)
    ]
    if not shares:
        return None
    values = [s.value for s in shares]
    own = max(LEAST_LEFT_SPREAD, stdev(values) if len(values) > 1 else 0.0)
    key, label = f"{name}/style/left", "Share of the charge left at landing, by the log"
    scatter = leaf(
        f"{key}/scatter",
        "Scatter of what is left",
        0.0,
        "1",
        own=own,
        basis="estimate",
        note=_from(len(shares)),
    )
    return apply(key, label, formula(usual_share_left), scatter, *shares, note=_from(len(shares)))


def _from(count: int) -> str:
    return f"from {count} logged flight{'s' if count > 1 else ''}"


def _learnt(name: str, flights: tuple[LoggedFlight, ...]) -> FlyingStyle | None:
    """The style that a log teaches; None where no flight counts."""
    factors = [f.factor for f in flights if isinstance(f.factor, Figure) and not f.left_out]
    if not factors:
        return None
    key, label, note = f"{name}/style", "Average power over hover power", _from(len(factors))
    mean, following = margins_of(tuple(f.value for f in factors))
    made = []
    for end, words, about, own in (
        ("", label, "Scatter of the mean over the flights", mean),
        ("/next", f"{label}, next flight", "Scatter of the next flight", following),
    ):
        scattered = f"{key}/scatter{end}"
        scatter = leaf(scattered, about, 1.0, "1", own=own, basis="estimate", note=note)
        how, all_of = formula(style_over_flights), (scatter, *factors)
        made.append(apply(f"{key}{end}", words, how, *all_of, shape="lognormal", note=note))
    return FlyingStyle(made[0], made[1], _left(name, flights), flights, len(factors), note, name)


def style_of(
    build: Build, flights: tuple[LoggedFlight, ...], lent: FlyingStyle | None = None
) -> FlyingStyle:
    """The builder's style from the log, else as `lent` by another build's log, else as stated, else
    the usual one.
    """
    flights = _marked(flights)
    learnt = _learnt(build.name, flights)
    if learnt is not None:
        return learnt
    if lent is not None and lent.used:
        whose = "" if lent.build == build.name else f" of {lent.build}"
        return replace(lent, flights=flights, note=f"{_from(lent.used)}{whose}")
    key, label = f"{build.name}/style", "Average power over hover power"
    stated = build.source.setup.style.factor if build.source.setup.style is not None else None
    if stated is not None:
        own, where = (
            stated.spread if stated.spread is not None else 0.2,
            build.where("setup", "style"),
        )
        told = leaf(key, label, stated.value, "1", own=own, basis="setting", where=where)
        return FlyingStyle(
            told,
            told,
            None,
            flights,
            0,
            "as the builder states it; no flight counted",
            build.name,
        )
    note = "common practice, no source"
    usual = leaf(key, label, USUAL_STYLE[0], "1", own=USUAL_STYLE[1], basis="estimate", note=note)
    return FlyingStyle(
        usual, usual, None, flights, 0, "as pilots usually fly; no flight counted", build.name
    )
