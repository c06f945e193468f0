"""Keys of what belongs to one aircraft, whatever variant of it is asked about: pieces, wires, glue.

A variant and a build with a part swapped are made from one aircraft. Where they hold the same
pieces, these scatter alike: the figures have one key. Where they hold others, the key says which.
"""

from builder.model.build import Build, WireRun
from builder.model.source.build_source import OwnMass, PartUse


def scatter_key(build: Build, key: str, shelf: str, count: int) -> str:
    """The key of how the pieces in one place differ from what their part weighs.

    `key` is of the row: a part's, or `pack-` and a pack's.
    """
    root = build.aircraft
    name = f"{root.name}/scatter/{key}"
    return name if _same_pieces(root, key, shelf, count) else f"{name}/{shelf}-{count}"


def unweighed_key(build: Build, key: str) -> str:
    """The key of what a row weighs of which nobody knows it."""
    root = build.aircraft
    while root.like is not None:  # of one kind: what a reading of the other settles holds here too
        root = root.like.aircraft
    name = f"{root.name}/unweighed/{key}"
    pack = build.packs.get(key.removeprefix("pack-"))
    if key in build.parts:
        shelf, count = build.parts[key].shelf, build.parts[key].count
    elif pack is not None:
        shelf, count = pack.shelf, pack.joined
    else:
        return name
    return name if _same_pieces(root, key, shelf, count) else f"{name}/{shelf}-{count}"


def _same_pieces(root: Build, key: str, shelf: str, count: int) -> bool:
    if key in root.parts:
        fitted = root.parts[key]
        return (fitted.shelf, fitted.count) == (shelf, count)
    pack = root.packs.get(key.removeprefix("pack-"))
    if pack is None or not key.startswith("pack-"):
        return False
    return (pack.shelf, pack.joined) == (shelf, count)


def shelf_of(build: Build, key: str) -> tuple[str, int]:
    """Which part of the shelf a row of the weight table is of, and how many; '' for wires and glue."""
    if key in build.parts:
        return build.parts[key].shelf, build.parts[key].count
    pack = build.packs.get(key.removeprefix("pack-"))
    if pack is None or not key.startswith("pack-"):
        return "", 0
    return pack.shelf, pack.joined


def _of_run(run: WireRun) -> tuple[object, ...]:
    wire = run.wire
    return (str(run.start), str(run.end), wire.gauge, wire.length, wire.lead, wire.trim_to)


def wire_keys(build: Build) -> tuple[str, ...]:
    """The key of each run of wire: its number in the file of the aircraft, else its ends and length."""
    root = build.aircraft
    if root is build:
        return tuple(f"{build.name}/wire/{i + 1}" for i in range(len(build.wires)))
    free: dict[tuple[object, ...], list[int]] = {}
    for number, run in enumerate(root.wires, 1):
        free.setdefault(_of_run(run), []).append(number)
    seen: dict[tuple[object, ...], int] = {}
    keys = []
    for run in build.wires:
        alike = _of_run(run)
        before = seen.get(alike, 0)
        seen[alike] = before + 1
        theirs = free.get(alike, [])
        in_file = before < len(theirs)
        key = f"wire/{theirs[before]}" if in_file else _own_wire(run, before)
        keys.append(f"{root.name}/{key}")
    return tuple(keys)


def _own_wire(run: WireRun, before: int) -> str:
    """The end of the key of a run that the aircraft's file has not: its ends, length, and how many
    alike stand before it.
    """
    long = run.wire.length or run.wire.trim_to
    shown = f"{1000 * long.value:.6g}mm" if long is not None else "fitted"
    end = f"-{before}" if before else ""
    return f"wire/{run.start}-{run.end}-{shown}{end}"


def _of_extra(extra: OwnMass) -> tuple[object, ...]:
    return (extra.what, extra.mass.best())


def extra_key(build: Build, i: int) -> str:
    """The key of a mass that no part carries: its number in the file of the aircraft that has it."""
    root, wanted = build.aircraft, _of_extra(build.source.extra_mass[i])
    if root is build:
        return f"{build.name}/extra/{i + 1}"
    alike = [j for j, e in enumerate(root.source.extra_mass) if _of_extra(e) == wanted]
    return f"{root.name}/extra/{alike[0] + 1}" if alike else f"{build.name}/own-extra/{i + 1}"


def weighed_pieces(build: Build, key: str) -> tuple[Build, PartUse] | None:
    """The build that says what single pieces in this place weigh: this one, else the nearest base
    with the same pieces; None where nobody weighed them.
    """
    here = build.parts[key]
    at: Build | None = build
    while at is not None:
        there = at.parts.get(key)
        if there is None or (there.shelf, there.count) != (here.shelf, here.count):
            return None
        if there.use.each_weighed:
            return at, there.use
        at = at.base
    return None
