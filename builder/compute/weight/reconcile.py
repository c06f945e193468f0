"""The scale beside the sum: readings, what lay there, what is unaccounted for."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from builder.compute.figures.figure import Figure, MaybeFigure, apply, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import difference, total
from builder.compute.formulas.uncertainty.reconciling import calibrated_mass
from builder.compute.weight.mass_lines import MassLine
from builder.compute.weight.scales import scale_error, spread_note, spread_of_reading
from builder.compute.weight.since_then import since
from builder.model.build import Build
from builder.model.source.build_log import Weighed

PARTS = "parts"  # what a reading of parts alone says that it is of
_WIRING = {"wires": "wiring/wires", "solder": "wiring/solder"}


@dataclass(frozen=True, eq=False)
class ScaleReading:
    """A reading of the scale beside the sum; the gap is what is unaccounted for (scale less sum).
    `on` is its day.

    `what` is dry, the name of a pack, or parts; `words` say what lay on the scale: the payload with
    a pack, not with dry. `now` is what it would show today, with what was mended and fitted since,
    and `later` names that; `unsure` are changes since of which nobody noted what they weigh.
    `whole` says that nothing was missing, `explained` that no other reading contradicts it.
    """

    what: str
    words: str
    weighed: Figure
    summed: Figure
    gap: MaybeFigure
    note: str
    on: date | None
    now: Figure
    later: tuple[str, ...]
    unsure: tuple[str, ...]
    whole: bool
    explained: bool = True


@dataclass(frozen=True, eq=False)
class Rows:
    """All rows of a weight table by key: those of the dry aircraft, what it carries, its packs."""

    dry: Mapping[str, MassLine]
    payload: Mapping[str, MassLine]
    packs: Mapping[str, MassLine]
    dry_sum: Figure
    all_up_sum: Mapping[str, Figure]

    @property
    def every(self) -> dict[str, MassLine]:
        """Rows by key; a pack's as `pack-` and its name."""
        packs = {f"pack-{k}": line for k, line in self.packs.items()}
        return {**self.dry, **self.payload, **packs}


def reading_words(what: str, payload: Iterable[str], weighed: Weighed | None = None) -> str:
    """What lay on the scale: the dry aircraft, the whole of it with a battery and all that it
    carries, or parts of it.
    """
    names = tuple(payload)
    if weighed is not None and what == PARTS:
        return f"{', '.join(weighed.parts)} alone"
    if weighed is not None and weighed.without:
        return f"dry, without {', '.join((*weighed.without, *names))}"
    carried = f" and payload {', '.join(names)}" if names else ""
    if what == "dry":
        return "dry, without payload" if names else "dry"
    return f"flying weight with battery {what}{carried}"


def _lay_there(weighed: Weighed, rows: Rows) -> tuple[str, ...]:
    """Keys of the rows of the weight table that lay on the scale."""
    if weighed.what == PARTS:
        names = (f"pack-{k}" if k in rows.packs else _WIRING.get(k, k) for k in weighed.parts)
        return tuple(k for k in dict.fromkeys(names) if k in rows.every)
    if weighed.what == "dry":
        gone = {_WIRING.get(k, k) for k in weighed.without}
        return tuple(k for k in rows.dry if k not in gone)
    return (*rows.dry, *rows.payload, f"pack-{weighed.what}")


def _key(build: Build, i: int) -> str:
    """What a reading's figures are called; an older one of the same is marked, since the last one
    has the plain name.
    """
    readings = build.source.weighed
    weighed = readings[i]
    if weighed.what == PARTS or weighed.without:
        return f"some-{i + 1}"
    later = sum(1 for w in readings[i + 1 :] if w.what == weighed.what and not w.without)
    return f"{weighed.what}/before-{later}" if later else weighed.what


def _shown(build: Build, i: int, key: str, name: str) -> Figure:
    """What the scale showed; what a named scale reads wrong is a figure of its own."""
    weighed, own_key = build.source.weighed[i], f"{build.name}/weighed/{key}"
    off = scale_error(build, weighed.scale_name)
    own = spread_of_reading(build, weighed.mass, weighed.scale, weighed.scale_name)
    figure = leaf(
        own_key,
        f"Scale, {name}",
        weighed.mass.value,
        "kg",
        own=own,
        basis="measured",
        where=build.where("weighed", i, "mass"),
        note=spread_note(build, weighed.mass, weighed.scale_name),
    )
    label = f"Scale {weighed.scale_name}, {name}"
    if off is None:
        return figure
    made = apply(f"{own_key}/true", label, formula(calibrated_mass), figure, off)
    return made if isinstance(made, Figure) else figure


def _summed(
    build: Build, weighed: Weighed, key: str, name: str, lay: Sequence[str], rows: Rows
) -> Figure:
    """The sum of the rows that lay on the scale."""
    if weighed.what == "dry" and len(lay) == len(rows.dry):
        return rows.dry_sum
    if weighed.what in rows.all_up_sum and len(lay) == len(rows.dry) + len(rows.payload) + 1:
        return rows.all_up_sum[weighed.what]
    every = rows.every
    there = [every[k].line for k in lay]
    return total(f"{build.name}/mass/sum-{key}", f"Sum of the parts, {name}", "kg", there)


def _reading(build: Build, i: int, rows: Rows) -> ScaleReading:
    weighed, key = build.source.weighed[i], _key(build, i)
    name = reading_words(weighed.what, rows.payload, weighed)
    whole = weighed.what != PARTS and not weighed.without
    figure, then = _shown(build, i, key, name), since(build, weighed.date, rows.every)
    lay = tuple(k for k in _lay_there(weighed, rows) if not whole or k not in then.added)
    summed = _summed(build, weighed, key, name, lay, rows)
    label = f"Not in the list, {name}"
    gap = difference(f"{build.name}/mass/gap-{key}", label, "kg", figure, summed)
    now, label = figure, f"{figure.label}, with what changed since"
    if whole and then.grams:
        now = total(f"{build.name}/mass/mended-{key}", label, "kg", [figure, *then.grams])
    later, unsure = (then.words, then.unsure) if whole else ((), ())
    note, on = weighed.note or "", weighed.date
    return ScaleReading(
        weighed.what, name, figure, summed, gap, note, on, now, later, unsure, whole
    )


def readings_of(build: Build, rows: Rows) -> tuple[ScaleReading, ...]:
    """Each reading of the build beside the sum of what lay on the scale, in the order of the file."""
    return tuple(_reading(build, i, rows) for i, _ in enumerate(build.source.weighed))
