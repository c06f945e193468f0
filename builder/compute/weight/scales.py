"""What a reading of a scale is worth: its digits, how well it repeats, and the scale's own error."""

from builder.compute.figures.figure import Figure, leaf
from builder.compute.formulas.uncertainty.reconciling import reading_spread
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.model.values.quantities import Quantity

USUAL_SCALE = assumed("weight and size/scale-step")
USUAL_REPEATABILITY = assumed("weight and size/scale-repeats")  # digits
USUAL_CALIBRATION = assumed("weight and size/scale-error")


def step_of(build: Build, shown: Quantity, scale: Quantity | None, name: str | None) -> float:
    """What one digit stands for, in kg: the coarser of what the scale shows and what was written.

    '160 g' is known to 1 g, '160.0 g' to 0.1 g.
    """
    known = build.site.scales.get(name or "")
    step = scale or (known.step if known is not None else None)
    if step is None:
        return shown.step if shown.step is not None else USUAL_SCALE
    return max(step.value, shown.step or 0.0)


def _calibration(build: Build, name: str | None) -> float:
    known = build.site.scales.get(name or "")
    said = known.calibration if known is not None else None
    said = said or build.site.spreads.scale_calibration
    return said.value if said is not None else USUAL_CALIBRATION


def spread_of_reading(
    build: Build, shown: Quantity, scale: Quantity | None, name: str | None
) -> float:
    """One standard deviation of a reading in kg; what a named scale reads wrong is kept apart."""
    if shown.spread is not None:
        return shown.spread
    step = step_of(build, shown, scale, name)
    known = build.site.scales.get(name or "")
    said = known.repeatability if known is not None else None
    again = said.value if said is not None else USUAL_REPEATABILITY * step
    alone = 0.0 if name else _calibration(build, name) * shown.value
    return reading_spread(step, again, alone)


def scale_error(build: Build, name: str | None) -> Figure | None:
    """The error common to all readings of a named scale, as a share; None without a name."""
    if not name:
        return None
    share, known = _calibration(build, name), build.site.scales.get(name)
    said = known is not None and known.calibration is not None
    where = Where("site.yaml", ("scales", name, "calibration")) if said else None
    note = "" if said or build.site.spreads.scale_calibration else "0.1 % (from memory)"
    label = f"Error of the scale {name}"
    key = f"site/scales/{name}/error"
    return leaf(key, label, 0.0, "1", own=share, basis="setting", where=where, note=note)


def spread_note(build: Build, shown: Quantity, name: str | None) -> str:
    """Where the spread of a reading comes from, where nobody says it."""
    if shown.spread is not None:
        return ""
    known = build.site.scales.get(name or "")
    repeats = known is not None and known.repeatability is not None
    own = "repeats as the site says" if repeats else "repeats to one digit (from memory)"
    return f"last digit, and the scale {own}"
