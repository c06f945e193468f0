"""The weight table: what each part weighs, dry, all-up with each pack, and what the scale says."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt

from builder.compute.figure import Figure, Known, Unknown, apply, constant, difference, formula, leaf, total
from builder.compute.formulas.mass_lines import line_mass, pieces_mass
from builder.compute.formulas.statistics import resolution_spread
from builder.compute.wire_mass import solder_mass, wire_mass
from builder.diagnostics.where import Where
from builder.model.base import SourcedMass
from builder.model.build import Build, Fitted, FittedPack
from builder.model.kinds import Consumable, GroundGear, Payload, Tool

GROUPS = ("frame", "propulsion", "electronics", "video", "radio", "hardware", "wiring", "other")
_LINE = formula(line_mass)
# What a scale is taken to resolve where nobody says: a pocket scale of 0.1 g (common practice, no source).
_USUAL_SCALE = 0.0001
_SHARES = {"maker": ("maker_mass", 0.03), "estimate": ("estimate", 0.15)}


@dataclass(frozen=True, eq=False)
class MassLine:
    """One row of the weight table. `others` are further bases of one piece's mass, shown beside the trusted one."""

    key: str
    label: str
    group: str
    count: int
    each: Known
    line: Known
    others: tuple[Figure, ...] = ()


@dataclass(frozen=True, eq=False)
class Reading:
    """A reading of the scale beside the sum; the gap is what is unaccounted for (scale less sum)."""

    what: str
    weighed: Figure
    summed: Figure
    gap: Known
    note: str = ""

    @property
    def explained(self) -> bool:
        """Whether the gap is within two standard deviations."""
        return isinstance(self.gap, Figure) and abs(self.gap.value) <= 2 * self.gap.spread


@dataclass(frozen=True, eq=False)
class MassTable:
    """Weights of a build. `dry` and `all_up` trust the scale where it was asked, else the sum of the parts.

    `payload` lines are outside dry; `all_up_loaded` holds them, `all_up` does not. A build is weighed with its
    payload on, so readings are compared with sums that hold it.
    """

    lines: tuple[MassLine, ...]
    payload: tuple[MassLine, ...]
    packs: Mapping[str, MassLine]
    groups: Mapping[str, Figure]
    dry_sum: Figure
    dry: Figure
    all_up_sum: Mapping[str, Figure]
    all_up: Mapping[str, Figure]
    all_up_loaded: Mapping[str, Figure]
    readings: tuple[Reading, ...]


def _share(build: Build, basis: str) -> float:
    name, usual = _SHARES[basis]
    given = getattr(build.site.spreads, name)
    return given.value if given is not None else usual


def _leaves(build: Build, key: str, label: str, mass: SourcedMass, where: Where) -> tuple[Figure, ...]:
    """One piece's mass on every basis that is given, most trusted first."""
    out: list[Figure] = []
    for basis, quantity in mass.all():
        if quantity.spread is not None:
            own = quantity.spread
        elif basis == "measured":
            scale = mass.scale.value if mass.scale is not None else _USUAL_SCALE
            own = resolution_spread(scale) / (mass.weighed_together or 1)
        else:
            own = quantity.value * _share(build, basis)
        name = key if not out else f"{key}/{basis}"
        at = where.at(basis)
        out.append(leaf(name, label, quantity.value, "kg", own=own, basis=basis, where=at))  # type: ignore[arg-type]
    return tuple(out)


def _line(
    build: Build, key: str, label: str, group: str, count: int, mass: SourcedMass | None, shelf: str, where: Where
) -> MassLine:
    """The row of a part: one piece's mass times the count, and the scatter of the pieces."""
    leaves = _leaves(build, f"shelf/{shelf}/mass", f"Weight of one {label}", mass, where) if mass is not None else ()
    if not leaves:
        missing = Unknown(f"{build.name}/mass/{key}", label, (f"weight of {label}",))
        return MassLine(key, label, group, count, missing, missing)
    each = leaves[0]
    given = build.site.spreads.piece_scatter
    share = given.value if given is not None else 0.01
    alike = each.basis == "measured" and count <= (mass.weighed_together or 1 if mass is not None else 1)
    pieces = constant(f"{build.name}/count/{key}", f"Pieces of {label}", float(count), "1")
    name = f"{build.name}/mass/{key}"
    if alike:
        line = apply(name, label, formula(pieces_mass), each, pieces)
        return MassLine(key, label, group, count, each, line, leaves[1:])
    own = sqrt(count) * share * each.value
    about = f"Scatter between pieces of {label}"
    scatter = leaf(f"{build.name}/scatter/{key}", about, 0.0, "kg", own=own, basis="setting")
    line = apply(name, label, _LINE, each, pieces, scatter)
    return MassLine(key, label, group, count, each, line, leaves[1:])


def part_line(build: Build, fitted: Fitted) -> MassLine:
    """The row of a fitted part."""
    part = fitted.part
    return _line(
        build, fitted.key, part.name, part.group, fitted.count, part.mass, fitted.shelf, fitted.shelf_where.at("mass")
    )


def pack_line(build: Build, pack: FittedPack) -> MassLine:
    """The row of a pack, all its pieces in parallel counted."""
    count = pack.use.count * pack.use.parallel
    return _line(
        build,
        f"pack-{pack.key}",
        pack.part.name,
        "pack",
        count,
        pack.part.mass,
        pack.shelf,
        pack.shelf_where.at("mass"),
    )


def shelf_line(build: Build, key: str, shelf: str, count: int) -> Known:
    """What pieces of another part of the shelf would weigh, in kg."""
    entry = build.shelf[shelf]
    part = entry.part
    return _line(build, key, part.name, part.group, count, part.mass, shelf, entry.where.at("mass")).line


def _extra_lines(build: Build) -> list[MassLine]:
    out = []
    for i, extra in enumerate(build.source.extra_mass):
        key = f"extra/{i + 1}"
        leaves = _leaves(
            build, f"{build.name}/extra/{i + 1}", extra.what, extra.mass, build.where("extra_mass", i, "mass")
        )
        if leaves:
            out.append(MassLine(key, extra.what, "other", 1, leaves[0], leaves[0], leaves[1:]))
    return out


def _wiring_lines(build: Build) -> list[MassLine]:
    out = []
    for key, figure in (("wiring/wires", wire_mass(build)), ("wiring/solder", solder_mass(build))):
        if figure is not None:
            out.append(MassLine(key, figure.label, "wiring", 1, figure, figure))
    return out


def _readings(build: Build, sums: Mapping[str, Figure]) -> tuple[Reading, ...]:
    out = []
    for i, weighed in enumerate(build.source.weighed):
        own = weighed.mass.spread
        if own is None:
            own = resolution_spread(weighed.scale.value if weighed.scale is not None else _USUAL_SCALE)
        name = "dry" if weighed.what == "dry" else f"all-up with {weighed.what}"
        later = sum(1 for w in build.source.weighed[i + 1 :] if w.what == weighed.what)
        again = f"/before-{later}" if later else ""  # the last reading of its kind is the one that is believed
        figure = leaf(
            f"{build.name}/weighed/{weighed.what}{again}",
            f"Scale, {name}",
            weighed.mass.value,
            "kg",
            own=own,
            basis="measured",
            where=build.where("weighed", i, "mass"),
        )
        summed = sums[weighed.what]
        gap = difference(
            f"{build.name}/mass/gap-{weighed.what}{again}", f"Unaccounted for, {name}", "kg", figure, summed
        )
        out.append(Reading(weighed.what, figure, summed, gap, weighed.note or ""))
    return tuple(out)


def _bare(build: Build, reading: Reading, payload: tuple[MassLine, ...]) -> Figure:
    """A reading less the payload, which was on the aircraft when it was weighed."""
    if not payload:
        return reading.weighed
    label = f"{reading.weighed.label}, less payload"
    load = total(f"{build.name}/mass/payload", "Payload", "kg", [p.line for p in payload])
    bare = difference(f"{build.name}/mass/bare-{reading.what}", label, "kg", reading.weighed, load)
    return bare if isinstance(bare, Figure) else reading.weighed


def _dry(build: Build, summed: Figure, on_scale: Mapping[str, Figure], packs: Mapping[str, MassLine]) -> Figure:
    """Dry weight by the scale, else by the scale with a pack less that pack, else the sum of the parts."""
    key, label = f"{build.name}/mass/dry", "Dry weight"
    if "dry" in on_scale:
        return total(key, label, "kg", [on_scale["dry"]], "the scale is believed before the sum of the parts")
    for pack, reading in on_scale.items():
        less = difference(key, label, "kg", reading, packs[pack].line)
        if isinstance(less, Figure):
            return less
    return total(key, label, "kg", [summed])


def mass_table(build: Build) -> MassTable:
    """The weights of a build, from its parts, wires and packs, and from the scale."""
    off_board = (Tool, GroundGear, Consumable, Payload)
    lines = [part_line(build, f) for f in build.parts.values() if not isinstance(f.part, off_board)]
    lines += _wiring_lines(build) + _extra_lines(build)
    payload = tuple(part_line(build, f) for f in build.of_kind(Payload))
    packs = {key: pack_line(build, pack) for key, pack in build.packs.items()}
    name = build.name
    named = [g for g in GROUPS if any(x.group == g for x in lines)]
    groups = {
        g: total(f"{name}/mass/group-{g}", f"Weight of {g}", "kg", [x.line for x in lines if x.group == g])
        for g in named
    }
    dry_sum = total(f"{name}/mass/dry-sum", "Dry weight, sum of the parts", "kg", groups.values())
    sums: dict[str, Figure] = {"dry": dry_sum}
    for key, pack in packs.items():
        sums[key] = total(f"{name}/mass/all-up-sum-{key}", f"All-up weight with {key}, sum", "kg", [dry_sum, pack.line])
    readings = _readings(
        build,
        sums
        if not payload
        else {
            k: total(f"{name}/mass/loaded-sum-{k}", f"{f.label}, with payload", "kg", [f, *(p.line for p in payload)])
            for k, f in sums.items()
        },
    )
    on_scale = {r.what: _bare(build, r, payload) for r in readings}
    asked = "the scale is believed before the sum of the parts"
    dry = _dry(build, dry_sum, on_scale, packs)
    all_up = {
        k: total(
            f"{name}/mass/all-up-{k}",
            f"All-up weight with {k}",
            "kg",
            [on_scale[k]] if k in on_scale else [dry, packs[k].line],
            asked if k in on_scale else "",
        )
        for k in packs
    }
    loaded = (
        {
            k: total(
                f"{name}/mass/loaded-{k}", f"All-up weight with {k} and payload", "kg", [f, *(p.line for p in payload)]
            )
            for k, f in all_up.items()
        }
        if payload
        else {}
    )
    return MassTable(
        tuple(lines),
        payload,
        packs,
        groups,
        dry_sum,
        dry,
        {k: f for k, f in sums.items() if k != "dry"},
        all_up,
        loaded,
        readings,
    )
