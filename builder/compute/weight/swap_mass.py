"""What another part or battery in one place does to the weight, by the parts and by all readings.

It is the same estimate as of the whole aircraft: a variant with that part weighs as much.
"""

from dataclasses import replace

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, leaf
from builder.compute.figures.sums import difference
from builder.compute.weight.mass import MassTable, mass_table
from builder.compute.weight.mass_lines import shelf_line
from builder.compute.weight.wire_mass import solder_mass, wire_mass
from builder.model.build import Build, Fitted, FittedPack, WireRun


def with_part(build: Build, key: str, shelf: str) -> Build:
    """The build with another part in one place, for its weight alone: wires that find no contact
    are left out.
    """
    entry, old = build.shelf[shelf], build.parts[key]
    use = old.use.model_copy(update={"use": shelf, "each_weighed": ()})
    new = Fitted(key, shelf, entry.part, use, entry.where, old.where)
    parts = {k: new if k == key else f for k, f in build.parts.items()}

    def joined(run: WireRun) -> bool:
        return all(c.pad in parts[c.part].part.pads for c in (run.start, run.end))

    wires = tuple(run for run in build.wires if joined(run))
    source = build.source.model_copy(update={"weighed": ()})
    return replace(build, source=source, parts=parts, wires=wires, base=build)


def with_other_pack(build: Build, key: str, shelf: str) -> Build:
    """The build with another battery under the name of one of its own, for its weight alone."""
    entry, old = build.shelf[shelf], build.packs[key]
    new = FittedPack(key, shelf, entry.part, old.use, entry.where, old.where)  # type: ignore[arg-type]  # the caller looked
    packs = {k: new if k == key else p for k, p in build.packs.items()}
    source = build.source.model_copy(update={"weighed": ()})
    return replace(build, source=source, packs=packs, base=build)


def _wiring(build: Build) -> tuple[float, float]:
    wires, solder = wire_mass(build), solder_mass(build)
    of_wires = wires.value if wires else 0.0
    of_solder = solder.value if solder else 0.0
    return of_wires, of_solder


def part_change(build: Build, mass: MassTable, name: str, key: str, shelf: str) -> MaybeFigure:
    """What another part in one place does to the weight, in kg. `name` begins the figures' keys."""
    now = next(x for x in (*mass.lines, *mass.payload) if x.key == key)
    part = build.shelf[shelf].part
    label = f"{part.name} in place of {build.parts[key].part.name}"
    count = build.parts[key].count
    new = shelf_line(build, key, shelf, count, name)
    by_rows = difference(f"{name}/change-by-parts", f"{label}, by the parts", "kg", new, now.line)
    if isinstance(by_rows, Unknown):
        return replace(by_rows, key=f"{name}/change", label=label)
    other = with_part(build, key, shelf)
    if _wiring(other) == _wiring(build) and not mass.evidence.of_another:
        return mass.evidence.reconciled(f"{name}/change", label, by_rows)
    after = mass_table(other, mass)
    pack = next(iter(mass.all_up), "") if key not in {x.key for x in mass.lines} else ""
    both = (after.all_up[pack], mass.all_up[pack]) if pack else (after.dry, mass.dry)
    change = difference(f"{name}/weighed-again", label, "kg", *both)
    if not isinstance(change, Figure):
        return change
    note = "the whole aircraft summed again, with its wires"
    return leaf(f"{name}/change", label, change.value, "kg", own=change.spread, note=note)


def pack_change(build: Build, mass: MassTable, name: str, key: str, shelf: str) -> MaybeFigure:
    """What another battery does to the flying weight, in kg."""
    pack = build.packs[key]
    count = pack.joined
    label = f"{build.shelf[shelf].part.name} in place of {pack.part.name}"
    new = shelf_line(build, f"pack-{key}", shelf, count, name)
    by_rows = difference(
        f"{name}/change-by-parts", f"{label}, by the shelf", "kg", new, mass.packs[key].line
    )
    if isinstance(by_rows, Unknown):
        return replace(by_rows, key=f"{name}/change", label=label)
    if not mass.evidence.of_another:
        return mass.evidence.reconciled(f"{name}/change", label, by_rows)
    after = mass_table(with_other_pack(build, key, shelf), mass).all_up[key]
    change = difference(f"{name}/weighed-again", label, "kg", after, mass.all_up[key])
    if not isinstance(change, Figure):
        return change
    note = "the whole aircraft summed again"
    return leaf(f"{name}/change", label, change.value, "kg", own=change.spread, note=note)
