"""A sensitivity of the current sensor that disagrees with the board.

Checks: the sensitivity of the current sensor that is set against the one that the speed controller names
for itself and for its measuring pad. Also against its shunt: the one over the other is the gain of an amplifier.
Why: a wrong sensitivity shows half the charge that is used, and the pilot flies the battery empty.
Example: 30 mV/A set for a speed controller of 15 mV/A.
Mend: set what the maker names, then correct it by the charger.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.load.assumed import assumed, assumed_list
from builder.model.build import FittedAs
from builder.model.kinds import SpeedController
from builder.model.values.quantities import parse
from builder.rules.compare import alike, clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_TRIMMED = assumed("setup/sensitivity")
_GAINS = assumed_list("setup/shunt-gain")


def _scales(fitted: FittedAs[SpeedController]) -> Iterator[tuple[float, Where]]:
    if fitted.part.current_sensitivity is not None:
        yield fitted.part.current_sensitivity.value, fitted.shelf_where.at("current_sensitivity")
    for name, pad in fitted.part.pads.items():
        try:
            said = parse(pad.sensitivity, "sensitivity").value if pad.sensitivity else None
        except ValueError:
            said = None  # volts, or a sensitivity in other words
        if said is not None:
            yield said, fitted.shelf_where.at("pads", name, "sensitivity")


def _gain(fitted: FittedAs[SpeedController], scale: float) -> Iterator[Outcome]:
    """A sensitivity is the shunt times the gain of the amplifier behind it."""
    shunt = fitted.part.shunt.value if fitted.part.shunt is not None else None
    if shunt is None:
        return
    if _GAINS[0] <= scale / shunt <= _GAINS[1]:
        yield Judged()
        return
    text = say(
        "{} has a shunt of {} and {}; that is a gain of {}.",
        fitted.key,
        given(shunt, "Ω", f"shelf/{fitted.shelf}/shunt"),
        given(scale, "V/A"),
        made(scale / shunt, "1"),
    )
    sensitivity = fitted.shelf_where.at("current_sensitivity")
    hint = "Correct the one that is a slip."
    yield clash(text, hint, fitted.shelf_where.at("shunt"), sensitivity, Severity.REMARK)


def check(case: Case) -> Iterator[Outcome]:
    told = case.build.source.setup.current_sensitivity
    where = case.build.where("setup", "current_sensitivity")
    for fitted in case.build.of_kind(SpeedController):
        scales = list(_scales(fitted))
        for value, at in scales[1:]:
            if not alike(value, scales[0][0]):
                text = f"{fitted.key} names two sensitivities for its current sensor."
                yield clash(text, "Correct one of the two.", at, scales[0][1])
        if fitted.part.current_sensitivity is not None:
            yield from _gain(fitted, fitted.part.current_sensitivity.value)
        if told is None:
            continue
        if not scales:
            yield NotJudged(
                f"sensitivity of the current sensor of {fitted.key}", fitted.shelf_where
            )
        elif alike(told.value, scales[0][0], _TRIMMED):
            yield Judged()
        else:
            text = say(
                "The sensitivity of the current sensor is set to {}; {} has {}.",
                given(told.value, told_unit(told.dimension)),
                fitted.key,
                given(scales[0][0], told_unit(told.dimension)),
            )
            yield clash(text, "Set what its maker names.", where, scales[0][1])


def told_unit(dimension: str) -> str:
    """The SI unit of a sensitivity."""
    return "V/A" if dimension == "sensitivity" else ""
