"""One estimate of weight: all readings and all parts brought together by least squares.

What the parts leave out (ties, glue, sleeves) is one leaf of the aircraft, nothing with a spread.
Each reading less what was expected of it is a gap. Least squares share a gap out by how well each
part, each reading and that leaf is known: a weight is what is expected of it, plus each gap times
its weight (Narasimhan and Jordache, Data Reconciliation and Gross Error Detection, 2000, ch. 3 and
7; from memory). So an estimate is a figure over the same leaves as the sum of the parts, and what
is asked of a variant, of a swap or of a copy is answered by the same gaps.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import fsum, hypot

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, leaf
from builder.compute.figures.sums import difference, total
from builder.compute.figures.told import PlainShare, told
from builder.compute.weight.evidence import Evidence
from builder.compute.weight.mass_lines import MassLine
from builder.compute.weight.one_aircraft import unweighed_key
from builder.compute.weight.reconcile import Rows, ScaleReading
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build

BEYOND_PARTS = assumed("weight and size/beyond-parts")
USUAL_GAP = assumed("weight and size/usual-gap")
_UNWEIGHED = assumed("weight and size/unweighed")
_SEEN = assumed("weight and size/settled")


def beyond_leaf(aircraft: Build, listed: float, missed: float = 0.0) -> Figure:
    """What an aircraft weighs beyond its parts: one leaf, shared by its variants and swaps.

    `missed` (kg) is by how much the scale is further off than the parts and the setting explain: a
    list that lacks so much says little of what it lacks, so the leaf is as wide.
    """
    said = aircraft.site.spreads.beyond_parts
    share = said.value if said is not None else BEYOND_PARTS
    where = Where("site.yaml", ("spreads", "beyond_parts")) if said is not None else None
    source = "" if said is not None else " (from memory)"
    wider = ", and as wide as the scale finds the list wrong" if missed else ""
    note = told(PlainShare(share), f" of the parts{source}{wider}")
    label, key = "Beyond the listed parts", f"{aircraft.name}/mass/beyond"
    own = hypot(share * listed, missed)
    return leaf(key, label, 0.0, "kg", own=own, basis="setting", where=where, note=note)


def _missed(gaps: Sequence[Figure]) -> float:
    """How much further the gaps lie on one side than they usually do, in kg."""
    if not gaps:
        return 0.0
    middle = fsum(g.value for g in gaps) / len(gaps)
    usual = max(g.spread for g in gaps)
    return max(0.0, abs(middle) - USUAL_GAP * usual)


def unweighed_leaf(build: Build, key: str, line: MassLine) -> Figure:
    """A row of which nobody knows the mass, as a figure that any reading may settle."""
    name = unweighed_key(build, key)
    label, note = f"{line.label}, not weighed", "nothing is known of it but by the scale"
    return leaf(name, label, 0.0, "kg", own=_UNWEIGHED, basis="estimate", note=note)


def expected_mass(key: str, label: str, rows: Mapping[str, MassLine], evidence: Evidence) -> Figure:
    """Rows of the weight table and what is beyond them, before any reading."""
    own = [evidence.unweighed[k] for k in rows if k in evidence.unweighed]
    known = [r.line for r in rows.values() if isinstance(r.line, Figure)]
    return total(key, label, "kg", [*known, *own, evidence.beyond])


def estimate(evidence: Evidence, key: str, label: str, rows: Mapping[str, MassLine]) -> Figure:
    """The mass of rows and of what is beyond them, by all readings. Rows that neither the shelf nor
    a reading knows are left out and named.
    """
    expected = expected_mass(f"{key}/expected", f"{label}, expected", rows, evidence)
    made = evidence.reconciled(key, label, expected)
    open_rows = [k for k in rows if k in evidence.unweighed and not _settled(made, k, evidence)]
    if not open_rows:
        return made
    known = {k: r for k, r in rows.items() if k not in open_rows}
    expected = expected_mass(f"{key}/expected", f"{label}, expected", known, evidence)
    lacks = tuple(dict.fromkeys(rows[k].label for k in open_rows))
    made = evidence.reconciled(key, label, expected)
    return replace(made, lacks=(*made.lacks, *lacks))


def _settled(figure: Figure, key: str, evidence: Evidence) -> bool:
    """Whether readings leave of a row's spread as good as nothing."""
    own = evidence.unweighed[key]
    return abs(figure.slopes.get(own.key, 0.0)) < _SEEN


def evidence_of(
    build: Build,
    rows: Rows,
    listed: float,
    readings: Sequence[ScaleReading],
    before: "Evidence | None" = None,
    another: bool = False,
) -> Evidence:
    """What readings say of a build. `listed` is what the parts of the aircraft add up to (kg).

    `before` is what is known by its base, or of `another` aircraft after whose sheet it is made; a
    build that was weighed whole itself does without.
    """
    every = rows.every
    unweighed = {
        k: unweighed_leaf(build, k, r) for k, r in every.items() if isinstance(r.line, Unknown)
    }
    narrow = beyond_leaf(build.aircraft, listed)
    weighed = any(r.whole for r in readings)
    lent = before if not weighed else None
    own = _gaps(build, rows, readings, narrow, unweighed)
    whole = [g for i, g in own if readings[i].whole]
    missed = _missed(whole)
    beyond = beyond_leaf(build.aircraft, listed, missed)
    of_another = lent is not None and (another or lent.of_another)
    if lent is not None and (lent.gaps or of_another):
        beyond = lent.beyond
    if beyond.own != narrow.own:
        own = _gaps(build, rows, readings, beyond, unweighed)
    first = lent.gaps if lent is not None else ()
    gaps = (*first, *(g for _, g in own))
    numbers = (*(-1 for _ in first), *(i for i, _ in own))
    return Evidence(gaps, numbers, beyond, unweighed, of_another)


def judged_readings(
    build: Build, rows: Rows, listed: float, readings: Sequence[ScaleReading]
) -> tuple[ScaleReading, ...]:
    """The build's readings, each with whether it takes part in a contradiction with the others or
    with the parts, of which no more is taken to be missing than the setting says.
    """
    every = rows.every
    unweighed = {
        k: unweighed_leaf(build, k, r) for k, r in every.items() if isinstance(r.line, Unknown)
    }
    narrow = beyond_leaf(build.aircraft, listed)
    own = _gaps(build, rows, readings, narrow, unweighed)
    strict = Evidence(tuple(g for _, g in own), tuple(i for i, _ in own), narrow, unweighed)
    return strict.judged(readings)


def _gaps(
    build: Build,
    rows: Rows,
    readings: Sequence[ScaleReading],
    beyond: Figure,
    unweighed: Mapping[str, Figure],
) -> list[tuple[int, Figure]]:
    """Each reading less what was expected of it, with its number in the file."""
    empty = Evidence((), (), beyond, unweighed)
    made = [(i, _gap(build, i, r, rows, empty)) for i, r in enumerate(readings)]
    return [(i, g) for i, g in made if g is not None]


def _gap(
    build: Build, i: int, reading: ScaleReading, rows: Rows, evidence: Evidence
) -> Figure | None:
    key, words = f"{build.name}/mass/expected-{i + 1}", f"Expected of the scale, {reading.words}"
    expected: Figure
    if reading.whole:
        there = dict(rows.dry)
        if reading.what != "dry":
            there |= {**rows.payload, f"pack-{reading.what}": rows.packs[reading.what]}
        expected = expected_mass(key, words, there, evidence)
    else:
        expected = total(key, words, "kg", [reading.summed, *_stage(build, i, reading, evidence)])
    label = f"Scale less what was expected, {reading.words}"
    made: MaybeFigure = difference(
        f"{build.name}/mass/unexpected-{i + 1}", label, "kg", reading.now, expected
    )
    lacks = () if reading.whole else reading.summed.lacks
    return made if isinstance(made, Figure) and not lacks else None


def _stage(build: Build, i: int, reading: ScaleReading, evidence: Evidence) -> list[Figure]:
    """What a half-built aircraft may hold beyond its parts; parts in a bag hold nothing else."""
    if reading.what != "dry":
        return []
    label, note = "Beyond the parts of that stage", "as of the whole aircraft, not known how far"
    key = f"{build.name}/mass/beyond-stage-{i + 1}"
    own = evidence.beyond.own
    return [leaf(key, label, 0.0, "kg", own=own, basis="setting", note=note)]
