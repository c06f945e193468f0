"""The weight table: what each part weighs, dry, all-up with each pack, and what the scale says."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.compute.figures.figure import Figure
from builder.compute.figures.sums import total
from builder.compute.weight.mass_lines import MassLine, mass_leaves, pack_line, part_line
from builder.compute.weight.reconcile import (
    ScaleReading,
    dry_weight,
    less_payload,
    mended_reading,
    readings_of,
    whole_without_pack,
)
from builder.compute.weight.wire_mass import solder_mass, wire_mass
from builder.model.build import Build
from builder.model.kinds import Consumable, GroundGear, Payload, Tool

GROUPS = ("frame", "propulsion", "electronics", "video", "radio", "hardware", "wiring", "other")


@dataclass(frozen=True, eq=False)
class MassTable:
    """Weights of a build. `dry` and `all_up` trust the scale where it was asked, else the sum of
    the parts.

    `all_up` is the one flying weight: the battery and the whole payload on, as limits and times
    take it. Dry is without both, on the scale too; `without_payload` is all-up less the payload,
    empty for a build that carries none.
    """

    lines: tuple[MassLine, ...]
    payload: tuple[MassLine, ...]
    packs: Mapping[str, MassLine]
    groups: Mapping[str, Figure]
    dry_sum: Figure
    dry: Figure
    all_up_sum: Mapping[str, Figure]
    all_up: Mapping[str, Figure]
    without_payload: Mapping[str, Figure]
    readings: tuple[ScaleReading, ...]

    def flown_with(self, pack: str) -> str:
        """What the flying weight holds beside the aircraft: 'battery small and payload recorder'."""
        return flown_with(pack, [x.key for x in self.payload])


def _extra_lines(build: Build) -> list[MassLine]:
    out = []
    for i, extra in enumerate(build.source.extra_mass):
        key = f"extra/{i + 1}"
        leaves = mass_leaves(
            build,
            f"{build.name}/extra/{i + 1}",
            extra.what,
            extra.mass,
            build.where("extra_mass", i, "mass"),
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


def flown_with(pack: str, payload: Sequence[str]) -> str:
    """A battery and what the aircraft carries, by their names in the build; a build that carries
    nothing says nothing.
    """
    carried = f" and payload {', '.join(payload)}" if payload else ""
    return f"battery {pack}{carried}"


_SCALE = "the scale is believed before the sum of the parts"


def mass_table(build: Build) -> MassTable:
    """The weights of a build, from its parts, wires and packs, and from the scale."""
    name, lines = build.name, _flying_lines(build)
    payload = tuple(part_line(build, f) for f in build.of_kind(Payload))
    carried, names = tuple(x.line for x in payload), [x.key for x in payload]
    packs = {key: pack_line(build, pack) for key, pack in build.packs.items()}
    known = [*GROUPS, *sorted({x.group for x in lines} - set(GROUPS))]
    groups = {
        g: total(
            f"{name}/mass/group-{g}",
            f"Weight of {g}",
            "kg",
            [x.line for x in lines if x.group == g],
        )
        for g in known
        if any(x.group == g for x in lines)
    }
    dry_sum = total(f"{name}/mass/dry-sum", "Dry weight, sum of the parts", "kg", groups.values())
    labels = {k: f"Flying weight (all-up) with {flown_with(k, names)}" for k in packs}
    all_up_sum = {
        k: total(
            f"{name}/mass/all-up-sum-{k}", f"{labels[k]}, sum", "kg", [dry_sum, *carried, p.line]
        )
        for k, p in packs.items()
    }
    readings = readings_of(build, {"dry": dry_sum, **all_up_sum}, names)
    whole = {r.what: mended_reading(build, r) for r in readings}
    bare = {k: f if k == "dry" else less_payload(build, k, f, carried) for k, f in whole.items()}
    dry = dry_weight(build, dry_sum, bare, packs)
    unpacked = whole_without_pack(build, dry, whole, packs, carried) if payload else dry
    all_up = {
        k: (
            total(f"{name}/mass/all-up-{k}", labels[k], "kg", [whole[k]], _SCALE)
            if k in whole
            else total(f"{name}/mass/all-up-{k}", labels[k], "kg", [unpacked, p.line])
        )
        for k, p in packs.items()
    }
    less = {
        k: total(
            f"{name}/mass/without-payload-{k}",
            f"Weight with battery {k}, without payload",
            "kg",
            [bare[k]] if k in bare else [dry, p.line],
        )
        for k, p in packs.items()
        if payload
    }
    return MassTable(
        tuple(lines), payload, packs, groups, dry_sum, dry, all_up_sum, all_up, less, readings
    )
