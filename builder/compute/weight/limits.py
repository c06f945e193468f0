"""Margin to each mass limit of the site, the chance of being over it, and what one change would
bring it under.
"""

from dataclasses import dataclass, replace

from builder.compute.figures.at_least import AT_LEAST, reading_of
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import difference, total
from builder.compute.formulas.uncertainty.statistics import chance_above
from builder.compute.weight.mass import MassTable
from builder.compute.weight.swap_mass import pack_change, part_change
from builder.diagnostics.where import Where
from builder.model.build import Build
from builder.model.kinds import Pack
from builder.model.site import MassLimit

MOST_WAYS = 6  # a page names no more; the lightest changes that do it come first
_DUST = 1e-11  # kg: what adding floats may leave behind; ten thousand times finer than any scale


@dataclass(frozen=True, eq=False)
class Way:
    """One swap or pack that brings the aircraft under a limit: what it becomes and by how much it
    changes.
    """

    what: str
    shelf: str
    label: str
    pack: bool
    change: MaybeFigure
    becomes: Figure


@dataclass(frozen=True, eq=False)
class Margin:
    """An aircraft against one limit. `left` is limit less mass. `within` is decided on the
    unrounded values.

    A mass that lacks parts ('at least') may be over for certain, but never within: `within` is then
    None. `flown_with` says what the mass holds beside the aircraft; it is empty for dry. `copy` is
    what another aircraft after this sheet weighs, `chance_of_copy` its chance of being over.
    """

    limit: MassLimit
    where: Where
    pack: str
    mass: Figure
    bound: Figure
    left: MaybeFigure
    within: bool | None
    chance_over: MaybeFigure
    ways: tuple[Way, ...] = ()
    flown_with: str = ""
    copy: Figure | None = None
    chance_of_copy: MaybeFigure | None = None


def is_within(value: float, limit: float, *, strict: bool) -> bool:
    """Whether a mass keeps a limit, both in kg and neither rounded. Strict: it has to be less."""
    return value < limit - _DUST if strict else value <= limit + _DUST


def keeps_limit(mass: Figure, limit: MassLimit) -> bool | None:
    """Whether a mass keeps a limit; None where what is missing could decide it otherwise."""
    keeps = is_within(mass.value, limit.mass.value, strict=limit.strict)
    if not mass.lacks:
        return keeps
    return False if not keeps and reading_of(mass) == AT_LEAST else None


def _bound(index: int, limit: MassLimit) -> Figure:
    where = Where("site.yaml", ("limits", index, "mass"))
    key = f"site/limits/{index + 1}/mass"
    return leaf(key, f"Limit, {limit.name}", limit.mass.value, "kg", basis="setting", where=where)


def _ways(
    build: Build, mass: MassTable, pack: str, now: Figure, limit: MassLimit
) -> tuple[Way, ...]:
    """Single changes that bring `now` under the limit, the smallest that does it first."""
    found: list[Way] = []
    name = f"{build.name}/way/{pack or 'dry'}"
    candidates = [(pack, shelf, True) for shelf in _other_packs(build, pack)]
    flying = {x.key for x in (*mass.lines, *(mass.payload if pack else ()))}
    for key, fitted in build.parts.items():
        for shelf in dict.fromkeys((*fitted.use.alternatives, *fitted.part.alternatives)):
            if shelf in build.shelf and key in flying:
                candidates.append((key, shelf, False))
    for what, shelf, is_pack in candidates:
        changed = pack_change if is_pack else part_change
        change = changed(build, mass, f"{name}/{what}-{shelf}", what, shelf)
        if isinstance(change, Unknown) or change.value >= 0:
            continue
        label = f"{now.label}, {shelf} as {what}"
        becomes = total(f"{name}/{what}-{shelf}", label, "kg", [now, change])
        if keeps_limit(becomes, limit):
            found.append(Way(what, shelf, build.shelf[shelf].part.name, is_pack, change, becomes))
    return tuple(sorted(found, key=lambda w: (-w.becomes.value, w.what, w.shelf))[:MOST_WAYS])


def _other_packs(build: Build, pack: str) -> list[str]:
    """Batteries of the shelf with the cells and the connector of one of the build's."""
    fitted = build.packs.get(pack)
    if fitted is None:
        return []
    mine = (fitted.part.cells, fitted.part.connector)
    others = [(n, e.part) for n, e in sorted(build.shelf.items()) if n != fitted.shelf]
    return [n for n, p in others if isinstance(p, Pack) and (p.cells, p.connector) == mine]


def margins(build: Build, mass: MassTable) -> tuple[Margin, ...]:
    """Every limit against dry, or against the flying weight (all-up) with each pack."""
    out = []
    for index, limit in enumerate(build.site.limits):
        bound = _bound(index, limit)
        cases = {"": mass.dry} if limit.applies_to == "dry" else dict(mass.all_up)
        for pack, figure in cases.items():
            key = f"{build.name}/limit/{index + 1}/{pack or 'dry'}"
            held = mass.flown_with(pack) if pack else ""
            name = f"{limit.name}, {f'with {held}' if held else 'dry'}"
            left = difference(f"{key}/left", f"Left to {name}", "kg", bound, figure)
            chance = _chance(key, f"Chance of being over {name}", figure, bound)
            within = keeps_limit(figure, limit)
            ways = _ways(build, mass, pack, figure, limit) if within is False else ()
            where = Where("site.yaml", ("limits", index))
            copy = mass.copies[pack].mass
            about = f"Chance of a copy to be over {name}"
            of_copy = _chance(f"{key}/copy", about, copy, bound)
            margin = Margin(limit, where, pack, figure, bound, left, within, chance, ways, held)
            out.append(replace(margin, copy=copy, chance_of_copy=of_copy))
    return tuple(out)


def _chance(key: str, label: str, figure: Figure, bound: Figure) -> MaybeFigure:
    spread = constant(f"{key}/spread", f"Spread of {figure.label}", figure.spread, "kg")
    return apply(f"{key}/chance", label, formula(chance_above), figure, bound, spread)
