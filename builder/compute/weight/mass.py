"""The weight table: what each part weighs, dry, all-up with each pack, and what the scale says."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from builder.compute.figures.figure import Figure
from builder.compute.figures.sums import total
from builder.compute.weight.copies import CopyMass, another_aircraft, copy_masses
from builder.compute.weight.estimate import estimate, evidence_of, judged_readings
from builder.compute.weight.evidence import Evidence
from builder.compute.weight.mass_lines import MassLine, mass_leaves, pack_line, part_line
from builder.compute.weight.one_aircraft import extra_key, shelf_of
from builder.compute.weight.reconcile import Rows, ScaleReading, readings_of
from builder.compute.weight.wire_mass import solder_mass, wire_mass
from builder.model.build import Build
from builder.model.kinds import Consumable, GroundGear, Payload, Tool

GROUPS = ("frame", "propulsion", "electronics", "video", "radio", "hardware", "wiring", "other")


@dataclass(frozen=True, eq=False)
class MassTable:
    """Weights of a build. `dry` and `all_up` bring the parts and all readings of the scale together
    by least squares; rows stay as they were weighed or claimed.

    `all_up` is the one flying weight: the battery and the whole payload on, as limits and times
    take it. Dry is without both, on the scale too; `without_payload` is all-up less the payload,
    empty for a build that carries none. `copies` are what another aircraft after this sheet will
    weigh: dry ('') and with each pack. `evidence` is what the readings say of any of it. `listed` is
    what the parts of the aircraft that it is made from add up to (kg).
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
    evidence: Evidence
    copies: Mapping[str, CopyMass]
    listed: float

    def flown_with(self, pack: str) -> str:
        """What the flying weight holds beside the aircraft: 'battery small and payload recorder'."""
        return flown_with(pack, [x.key for x in self.payload])


def _extra_lines(build: Build) -> list[MassLine]:
    out = []
    for i, extra in enumerate(build.source.extra_mass):
        key = f"extra/{i + 1}"
        leaves = mass_leaves(
            build,
            extra_key(build, i),
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


@dataclass(frozen=True, eq=False)
class _Table:
    """The rows of a build and their groups."""

    rows: Rows
    groups: Mapping[str, Figure]


def _table(build: Build) -> _Table:
    name, lines = build.name, _flying_lines(build)
    payload = {x.key: x for x in (part_line(build, f) for f in build.of_kind(Payload))}
    packs = {key: pack_line(build, pack) for key, pack in build.packs.items()}
    known = [*GROUPS, *sorted({x.group for x in lines} - set(GROUPS))]
    groups: dict[str, Figure] = {}
    for g in known:
        own = [x.line for x in lines if x.group == g]
        if own:
            groups[g] = total(f"{name}/mass/group-{g}", f"Weight of {g}", "kg", own)
    dry_sum = total(f"{name}/mass/dry-sum", "Dry weight, sum of the parts", "kg", groups.values())
    carried = [x.line for x in payload.values()]
    all_up_sum: dict[str, Figure] = {}
    for k, p in packs.items():
        key, label = f"{name}/mass/all-up-sum-{k}", f"{_all_up_words(k, payload)}, sum"
        all_up_sum[k] = total(key, label, "kg", [dry_sum, *carried, p.line])
    rows = Rows({x.key: x for x in lines}, payload, packs, dry_sum, all_up_sum)
    return _Table(rows, groups)


def _all_up_words(pack: str, payload: Iterable[str]) -> str:
    return f"Flying weight (all-up) with {flown_with(pack, tuple(payload))}"


def _evidence(build: Build, rows: Rows, listed: float) -> Evidence:
    """What was weighed on this build and on those that it was made from."""
    before = _evidence_before(build, listed)
    another = build.base is None and build.like is not None
    return evidence_of(build, rows, listed, readings_of(build, rows), before, another)


def _evidence_before(build: Build, listed: float) -> Evidence | None:
    """What was weighed on those that a build was made from."""
    source = build.base or build.like
    if source is None:
        return None
    listed_there = listed if build.base is not None else _listed(source)
    return _evidence(source, _table(source).rows, listed_there)


def _listed(build: Build) -> float:
    """What the parts of the aircraft that a build is made from add up to (kg)."""
    return _table(build.aircraft).rows.dry_sum.value


def _by_the_sheet(build: Build, rows: Mapping[str, MassLine]) -> dict[str, MassLine]:
    """Rows of another aircraft after a sheet, each as that sheet knows it where the pieces are of the
    same kind and number.
    """
    like = build.aircraft.like
    theirs = _table(like).rows.every if like is not None else {}
    out = dict(rows)
    for key in rows:
        there = theirs.get(key)
        if like is not None and there is not None and _alike(build, like, key, rows[key], there):
            out[key] = there
    return out


def _alike(build: Build, like: Build, key: str, row: MassLine, there: MassLine) -> bool:
    if shelf_of(build, key) != shelf_of(like, key):
        return False
    if shelf_of(build, key) != ("", 0):
        return True
    mine, other = row.line, there.line
    if not isinstance(mine, Figure) or not isinstance(other, Figure):
        return False
    return mine.value == other.value


def _rows_and_evidence(build: Build, of_base: MassTable | None) -> tuple[_Table, Evidence, float]:
    """The rows of a build, what readings say of them, and what the parts of its aircraft add up to."""
    table = _table(build)
    if of_base is not None:
        listed = of_base.listed
        readings = readings_of(build, table.rows)
        return table, evidence_of(build, table.rows, listed, readings, of_base.evidence), listed
    own = build.aircraft is build
    listed = table.rows.dry_sum.value if own else _listed(build)
    return table, _evidence(build, table.rows, listed), listed


def _weighing(
    build: Build, evidence: Evidence, key: str, label: str, some: Mapping[str, MassLine]
) -> Figure:
    if evidence.of_another:
        some = another_aircraft(build, _by_the_sheet(build, some), evidence)
    return estimate(evidence, f"{build.name}/mass/{key}", label, some)


def _flying(build: Build, rows: Rows, evidence: Evidence) -> dict[str, Figure]:
    """The one flying weight with each pack."""
    out: dict[str, Figure] = {}
    for k, line in rows.packs.items():
        every = {**rows.dry, f"pack-{k}": line, **rows.payload}
        out[k] = _weighing(build, evidence, f"all-up-{k}", _all_up_words(k, rows.payload), every)
    return out


def flying_weights(build: Build, of_base: MassTable | None = None) -> Mapping[str, Figure]:
    """`all_up` of the weight table alone, for a build of which nobody asks for the rest."""
    table, evidence, _ = _rows_and_evidence(build, of_base)
    return _flying(build, table.rows, evidence)


def mass_table(build: Build, of_base: MassTable | None = None) -> MassTable:
    """The weights of a build, from its parts, wires and packs, and from the scale. `of_base` is the
    table of its base, where it stands already: many swaps are made from one build.
    """
    table, evidence, listed = _rows_and_evidence(build, of_base)
    rows = table.rows
    dry = _weighing(build, evidence, "dry", "Dry weight", rows.dry)
    less: dict[str, Figure] = {}
    for k, line in rows.packs.items():
        bare = {**rows.dry, f"pack-{k}": line}
        about = f"Weight with battery {k}, without payload"
        if rows.payload:
            less[k] = _weighing(build, evidence, f"without-payload-{k}", about, bare)
    of_copy = rows
    if evidence.of_another:
        dry_rows, carried = (_by_the_sheet(build, some) for some in (rows.dry, rows.payload))
        packs = _by_the_sheet(build, {f"pack-{k}": line for k, line in rows.packs.items()})
        held = {k: packs[f"pack-{k}"] for k in rows.packs}
        of_copy = Rows(dry_rows, carried, held, rows.dry_sum, rows.all_up_sum)
    return MassTable(
        tuple(rows.dry.values()),
        tuple(rows.payload.values()),
        rows.packs,
        table.groups,
        rows.dry_sum,
        dry,
        rows.all_up_sum,
        _flying(build, rows, evidence),
        less,
        judged_readings(build, rows, listed, readings_of(build, rows)),
        evidence,
        copy_masses(build, of_copy, evidence),
        listed,
    )
