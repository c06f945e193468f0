"""The scale beside the sum: readings, what is unaccounted for, and the weights that the scale is
believed for.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from builder.compute.figures.figure import Figure, MaybeFigure, leaf
from builder.compute.figures.sums import difference, total
from builder.compute.formulas.uncertainty.statistics import resolution_spread
from builder.compute.money.history import changes_after
from builder.compute.weight.mass_lines import USUAL_SCALE, MassLine
from builder.model.build import Build


@dataclass(frozen=True, eq=False)
class ScaleReading:
    """A reading of the scale beside the sum; the gap is what is unaccounted for (scale less sum).
    `on` is its day.

    `what` is dry or the name of a pack, `words` say what lay on the scale: the payload with a pack,
    not with dry.
    """

    what: str
    words: str
    weighed: Figure
    summed: Figure
    gap: MaybeFigure
    note: str = ""
    on: date | None = None

    @property
    def explained(self) -> bool:
        """Whether the gap is within two standard deviations."""
        return isinstance(self.gap, Figure) and abs(self.gap.value) <= 2 * self.gap.spread


def reading_words(what: str, payload: Sequence[str]) -> str:
    """What lay on the scale: the dry aircraft, or the whole of it with a battery and all that it
    carries.
    """
    carried = f" and payload {', '.join(payload)}" if payload else ""
    if what == "dry":
        return "dry, without payload" if payload else "dry"
    return f"flying weight with battery {what}{carried}"


def readings_of(
    build: Build, sums: Mapping[str, Figure], payload: Sequence[str] = ()
) -> tuple[ScaleReading, ...]:
    """Each reading of the build beside the sum of what lay on the scale, in the order of the file."""
    out = []
    for i, weighed in enumerate(build.source.weighed):
        own = weighed.mass.spread
        if own is None:
            own = resolution_spread(
                weighed.scale.value if weighed.scale is not None else USUAL_SCALE
            )
        name = reading_words(weighed.what, payload)
        later = sum(1 for w in build.source.weighed[i + 1 :] if w.what == weighed.what)
        again = (
            f"/before-{later}" if later else ""
        )  # the last reading of its kind is the one that is believed
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
            f"{build.name}/mass/gap-{weighed.what}{again}",
            f"Not in the list, {name}",
            "kg",
            figure,
            summed,
        )
        out.append(
            ScaleReading(weighed.what, name, figure, summed, gap, weighed.note or "", weighed.date)
        )
    return tuple(out)


def mended_reading(build: Build, reading: ScaleReading) -> Figure:
    """A reading with what was mended after that day."""
    mended = changes_after(build, reading.on)
    if not mended:
        return reading.weighed
    label = f"{reading.weighed.label}, with repairs since"
    return total(
        f"{build.name}/mass/mended-{reading.what}", label, "kg", [reading.weighed, *mended]
    )


def less_payload(
    build: Build, what: str, weighed: Figure, payload: Sequence[MaybeFigure]
) -> Figure:
    """A reading with a pack less the payload, which was on the aircraft when it was weighed."""
    if not payload:
        return weighed
    load = total(f"{build.name}/mass/payload", "Payload", "kg", payload)
    bare = difference(
        f"{build.name}/mass/bare-{what}", f"{weighed.label}, less payload", "kg", weighed, load
    )
    return bare if isinstance(bare, Figure) else weighed


def whole_without_pack(
    build: Build,
    dry: Figure,
    on_scale: Mapping[str, Figure],
    packs: Mapping[str, MassLine],
    payload: Sequence[MaybeFigure],
) -> Figure:
    """The aircraft with its payload and no pack: a reading with a pack less that pack, else dry and
    the payload.

    Whatever the payload weighs, such a reading held it: nothing is lacking then.
    """
    key, label = f"{build.name}/mass/with-payload", "Weight with payload, without battery"
    readings = on_scale.items() if "dry" not in on_scale else ()
    for pack, reading in readings:
        less = difference(key, label, "kg", reading, packs[pack].line)
        if isinstance(less, Figure):
            return less
    return total(key, label, "kg", [dry, *payload])


def dry_weight(
    build: Build, summed: Figure, on_scale: Mapping[str, Figure], packs: Mapping[str, MassLine]
) -> Figure:
    """Dry weight by the scale, else by the scale with a pack less that pack, else the sum of the
    parts.
    """
    key, label = f"{build.name}/mass/dry", "Dry weight"
    if "dry" in on_scale:
        return total(
            key, label, "kg", [on_scale["dry"]], "the scale is believed before the sum of the parts"
        )
    for pack, reading in on_scale.items():
        less = difference(key, label, "kg", reading, packs[pack].line)
        if isinstance(less, Figure):
            return less
    return total(key, label, "kg", [summed])
