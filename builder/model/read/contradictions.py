"""What cannot be true together: two values of a source, each possible alone, of which one must be a
slip.

Said at the place of the one, with both readings and with the place of the other. What is merely
unlikely is left to the rules. Where a share of room is left, it is said beside it.
"""

from collections.abc import Iterator
from dataclasses import replace

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import Where
from builder.model.build import Build, FittedPack
from builder.model.kinds import Antenna, Pack, Part
from builder.model.site import Site
from builder.model.source.build_log import Weighed

# of the capacity: makers state it low at times, chargers show a little more (common practice, no
# source)
_SPENT = 1.3
# of the maker's figure: packs weigh up to some tenths less than stated (common practice, no source)
_LIGHTER = 0.7
# of a reading of another day: so much is lost by no change of parts (common practice, no source)
_REBUILT = 0.5
_OVER_FULL = 0.05  # V a cell that a meter may show above full (cell data sheets: 4.20 ± 0.05 V)
_HIGHEST_FULL = (
    4.45  # V of the highest cells that are sold, where a pack does not say its own (from memory)
)
_MOST_CELLS = 14  # in series, as SeriesCells of bounds_of_circuits.py says of one battery
Problem = tuple[str, str, Where, Where]  # what is wrong, how to mend it, and both places
_SPOILT = 2.0  # V a cell, below any lower limit of a data sheet (2.5 to 3.0 V)


def _both(message: str, where: Where, other: Where, hint: str) -> Finding:
    return replace(mistake("data/contradiction", message, hint, where), see=(other,))


def _grams(kilograms: float) -> str:
    return f"{1000 * kilograms:.6g} g"


def _volts(volts: float) -> str:
    return f"{volts:.4g} V"


_CHECK = "One of the two is a slip: check the digits, the point and the unit of both."


def in_build(build: Build) -> tuple[Finding, ...]:
    """What cannot be together in a build, its packs and its log."""
    joined = (_both(said, at, other, hint) for said, hint, at, other in _in_joined(build))
    return (*_weighed(build), *_flown(build), *_landings(build), *joined)


def _weighed(build: Build) -> Iterator[Finding]:
    """With a battery it weighs more than without, and more than the battery."""
    readings = tuple(enumerate(build.source.weighed))
    dry = [(i, w) for i, w in readings if w.what == "dry"]
    for i, with_pack in readings:
        pack = build.packs.get(with_pack.what)
        if pack is None:
            continue
        where, own = build.where("weighed", i, "mass"), with_pack.mass.value
        heavier = next((d for d in dry if own <= _least(with_pack, d[1])), None)
        if heavier is not None:
            at, reading = heavier
            problem = (
                f"{_grams(own)} with the battery {pack.key!r} on is not more than the"
                f" {_grams(reading.mass.value)} without one."
            )
            yield _both(problem, where, build.where("weighed", at, "mass"), _CHECK)
        elif own < (alone := _LIGHTER * _mass_of(pack)):
            problem = (
                f"{_grams(own)} with the battery {pack.key!r} on is less than the battery alone: "
                f"{_grams(alone / _LIGHTER)}."
            )
            yield _both(problem, where, pack.shelf_where.at("mass"), _CHECK)


def _least(with_pack: Weighed, dry: Weighed) -> float:
    """What the aircraft weighs at least, by a reading without a battery; one of another day may be
    out of date.
    """
    another_day = with_pack.date is not None and dry.date is not None and with_pack.date != dry.date
    return dry.mass.value * (_REBUILT if another_day else 1.0)


def _mass_of(pack: FittedPack) -> float:
    mass = pack.part.mass.value if pack.part.mass is not None else None
    return (mass or 0.0) * pack.joined


def _flown(build: Build) -> Iterator[Finding]:
    """No flight uses far more than a battery holds, or lands above full or below what spoils the
    cells.
    """
    for i, flight in enumerate(build.source.flights):
        pack = build.packs.get(flight.pack)
        if pack is None:
            continue
        holds = pack.capacity
        if flight.used is not None and holds is not None and flight.used.value > _SPENT * holds:
            problem = (
                f"{flight.used.value / 3.6:.6g} mAh used is far more than the {holds / 3.6:.6g} mAh"
                f" that the battery {pack.key!r} holds."
            )
            yield _both(
                problem, build.where("flights", i, "used"), pack.shelf_where.at("capacity"), _CHECK
            )
        if flight.landed_at is not None and pack.cells is not None:
            yield from _landed(flight.landed_at.value, pack, build.where("flights", i, "landed_at"))


def _landed(volts: float, pack: FittedPack, where: Where) -> Iterator[Finding]:
    cells = pack.cells
    if cells is None:
        return
    full = pack.part.full.value if pack.part.full is not None else _HIGHEST_FULL
    highest, lowest = (full + _OVER_FULL) * cells.high, _SPOILT * cells.low
    other = pack.shelf_where.at("cells")
    if volts > highest:
        problem = (
            f"Landed at {_volts(volts)}: {cells.label} of the battery {pack.key!r} has"
            f" {_volts(full * cells.high)} when full."
        )
        yield _both(problem, where, other, _CHECK)
    elif volts < lowest:
        problem = (
            f"Landed at {_volts(volts)}: {cells.label} of the battery {pack.key!r} is spoilt below"
            f" {_volts(lowest)}."
        )
        yield _both(
            problem,
            where,
            other,
            "Write the volts of the whole battery, not of a cell; check digits and point.",
        )


def _landings(build: Build) -> Iterator[Finding]:
    """A flight ends below the volts at which it begins."""
    whole = build.source.setup.landing
    for pack in build.packs.values():
        full = pack.part.full
        if full is None:
            continue
        places = [(pack.use.landing, build.where("packs", pack.key, "landing"))]
        places += (
            [(whole.volts, build.where("setup", "landing", "volts"))] if whole is not None else []
        )
        for landing, where in places:
            if landing is not None and landing.value >= full.value:
                problem = (
                    f"A flight that ends at {_volts(landing.value)} a cell never begins: a cell of"
                    f" the battery {pack.key!r} is full at {_volts(full.value)}."
                )
                yield _both(problem, where, pack.shelf_where.at("full"), _CHECK)


def _in_joined(build: Build) -> Iterator[Problem]:
    """What cannot be together in batteries that are joined."""
    for pack in build.packs.values():
        yield from _joined_cells(pack)
        yield from _joined_counts(pack)


def _joined_cells(pack: FittedPack) -> Iterator[Problem]:
    one, whole = pack.part.cells, pack.cells
    if one is None or whole is None or whole.high <= _MOST_CELLS:
        return
    problem = (
        f"{pack.use.series} batteries of {one.label} in series are {whole.high} cells; such aircraft"
        f" fly on {_MOST_CELLS} at most."
    )
    hint = "Count the batteries again: `parallel` is for those that are joined in parallel."
    yield problem, hint, pack.where.at("series"), pack.shelf_where.at("cells")


def _joined_counts(pack: FittedPack) -> Iterator[Problem]:
    read, others, joined = len(pack.use.each_volts), len(pack.use.beside), pack.joined
    at = pack.where
    if read and read != joined:
        problem = f"Here stand volts of {read} batteries, and {joined} of {pack.key!r} are joined."
        hint = (
            "Write the volts of each, or none; say in `series` and `parallel` how many there are."
        )
        yield problem, hint, at.at("each_volts"), at
    places = len(pack.use.each_at)
    if places and places != joined:
        problem = f"{joined} of {pack.key!r} are joined, and the number of places is {places}."
        hint = "Write the place of each in `each_at`, or that of all of them together in `at`."
        yield problem, hint, at.at("each_at"), at
    if places and pack.use.at is not None:
        problem = f"{pack.key!r} has a place of each battery and one of all of them."
        yield problem, "Write `at` or `each_at`, not both.", at.at("at"), at.at("each_at")
    if others and others >= joined:
        problem = f"{others} of {joined} batteries of {pack.key!r} are of another kind."
        hint = "Name those in `beside` that stand beside one of `use`, and count all in `series` and `parallel`."
        yield problem, hint, at.at("beside"), at


def in_part(part: Part, where: Where) -> tuple[Finding, ...]:
    """What cannot be together in a part of the shelf."""
    if isinstance(part, Pack):
        return tuple(_in_pack(part, where))
    if not isinstance(part, Antenna) or part.active is None or part.length is None:
        return ()
    active, whole = part.active.value, part.length.value
    if active <= whole:
        return ()
    problem = (
        f"{1000 * active:.6g} mm that radiate are longer than the whole antenna,"
        f" {1000 * whole:.6g} mm."
    )
    return (_both(problem, where.at("active"), where.at("length"), _CHECK),)


def _in_pack(pack: Pack, where: Where) -> Iterator[Finding]:
    """A cell is named after fewer volts than it has when full, and a flight ends below those."""
    if pack.full is None:
        return
    full = pack.full.value
    for name, volts in (("landing", pack.landing), ("nominal", pack.nominal)):
        if volts is not None and volts.value >= full:
            problem = f"{name}: {_volts(volts.value)} is not below full: {_volts(full)}."
            yield _both(problem, where.at(name), where.at("full"), _CHECK)


def in_site(site: Site, where: Where) -> tuple[Finding, ...]:
    """What cannot be together in the settings."""
    found = []
    for i, allowed in enumerate(site.allowed):
        low, high = allowed.from_.value, allowed.to.value
        if low > high:
            problem = f"from: {low / 1e6:.6g} MHz is above to: {high / 1e6:.6g} MHz."
            at = where.at("allowed", i)
            found.append(
                _both(problem, at.at("from"), at.at("to"), "Write the lower frequency under from.")
            )
    return tuple(found)
