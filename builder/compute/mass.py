"""The weight table: what each part weighs, dry, all-up with each pack, and what the scale says."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.compute.figure import Figure, total
from builder.compute.mass_lines import MassLine, mass_leaves, pack_line, part_line
from builder.compute.reconcile import Reading, bare_reading, dry_weight, readings_of
from builder.compute.wire_mass import solder_mass, wire_mass
from builder.model.build import Build
from builder.model.kinds import Consumable, GroundGear, Payload, Tool

GROUPS = ("frame", "propulsion", "electronics", "video", "radio", "hardware", "wiring", "other")


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


def _extra_lines(build: Build) -> list[MassLine]:
    out = []
    for i, extra in enumerate(build.source.extra_mass):
        key = f"extra/{i + 1}"
        leaves = mass_leaves(
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


def _flying_lines(build: Build) -> list[MassLine]:
    """Every row but payload and packs."""
    off_board = (Tool, GroundGear, Consumable, Payload)
    lines = [part_line(build, f) for f in build.parts.values() if not isinstance(f.part, off_board)]
    return lines + _wiring_lines(build) + _extra_lines(build)


def _loaded(build: Build, kind: str, figures: Mapping[str, Figure], payload: Sequence[MassLine]) -> dict[str, Figure]:
    """Each figure with the payload on."""
    return {
        k: total(f"{build.name}/mass/{kind}-{k}", f"{f.label}, with payload", "kg", [f, *(p.line for p in payload)])
        for k, f in figures.items()
    }


def mass_table(build: Build) -> MassTable:
    """The weights of a build, from its parts, wires and packs, and from the scale."""
    name, lines = build.name, _flying_lines(build)
    payload = tuple(part_line(build, f) for f in build.of_kind(Payload))
    packs = {key: pack_line(build, pack) for key, pack in build.packs.items()}
    known = [*GROUPS, *sorted({x.group for x in lines} - set(GROUPS))]
    groups = {
        g: total(f"{name}/mass/group-{g}", f"Weight of {g}", "kg", [x.line for x in lines if x.group == g])
        for g in known
        if any(x.group == g for x in lines)
    }
    dry_sum = total(f"{name}/mass/dry-sum", "Dry weight, sum of the parts", "kg", groups.values())
    all_up_sum = {
        k: total(f"{name}/mass/all-up-sum-{k}", f"All-up weight with {k}, sum", "kg", [dry_sum, p.line])
        for k, p in packs.items()
    }
    sums = {"dry": dry_sum, **all_up_sum}
    readings = readings_of(build, _loaded(build, "loaded-sum", sums, payload) if payload else sums)
    on_scale = {r.what: bare_reading(build, r, payload) for r in readings}
    dry = dry_weight(build, dry_sum, on_scale, packs)
    all_up = {
        k: total(
            f"{name}/mass/all-up-{k}",
            f"All-up weight with {k}",
            "kg",
            [on_scale[k]] if k in on_scale else [dry, packs[k].line],
            "the scale is believed before the sum of the parts" if k in on_scale else "",
        )
        for k in packs
    }
    loaded = _loaded(build, "loaded", all_up, payload) if payload else {}
    return MassTable(tuple(lines), payload, packs, groups, dry_sum, dry, all_up_sum, all_up, loaded, readings)
