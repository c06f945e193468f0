"""What is expected of a reading with the power off, and why, with the numbers rounded."""

from collections.abc import Sequence

from builder.compute.order.steps.work_step import Measure
from builder.compute.power_up.gate_checks import MOST_SUSPECTS
from builder.compute.power_up.gate_readings import BEEP_BELOW, METER_OHMS, GateReading
from builder.rounding import rounded, significant


def expected_words(reading: GateReading) -> str:
    """What the meter shows, with the time of a beep where it is known, and what it is compared to.

    Where the same was read at the last gate, the two are alike, or changed only by what was added.
    """
    said = reading.expect
    if reading.beep is not None:
        shortest, longest = (
            rounded(1000 * seconds, 0) for seconds in (reading.beep.low, reading.beep.high)
        )
        said = f"one short beep or none (computed: {shortest} to {longest} ms), then rises"
    if reading.since:
        return f"{said}; about as at gate {reading.since}, or lower by what was added"
    return said


def measured_words(measure: Measure) -> str:
    """What a reading of a step is expected to be: what the part's facts say first, where they do."""
    if measure.ohms is None:
        return measure.expect
    each = " each" if measure.count > 1 else ""
    said = f"about {rounded(measure.ohms, 2)} Ω{each}"
    return f"{said}, {measure.expect}" if measure.expect else said


def reason_words(reading: GateReading, *, meter: bool = True) -> str:
    """Why, with what reads low by nature, what is one net, and which joints a wrong reading points
    to. `meter` says by what the beep was computed.
    """
    why = reading.why
    if reading.beep is not None:
        why += f". Longer than {rounded(reading.beep.fault, 1)} s is a fault"
        why += f". {meter_words()}" if meter else ""
    low = [between + _about(ohms) for between, ohms in reading.normal]
    if low:
        why += f"; normal: {', '.join(low)}"
    if reading.one_net:
        why += f"; one net, they beep: {', '.join(reading.one_net)}"
    return ". ".join(w for w in (why, suspect_words(reading.suspects)) if w)


def suspect_words(joints: Sequence[str]) -> str:
    """Where to look first if a reading is wrong; '' where its place says it."""
    if not joints:
        return ""
    more = len(joints) - MOST_SUSPECTS
    rest = f" and {more} more on the same net" if more > 0 else ""
    return f"If it reads otherwise, look at: {', '.join(joints[:MOST_SUSPECTS])}{rest}"


def _about(ohms: float | None) -> str:
    return "" if ohms is None else f" about {significant(ohms)} Ω"


def meter_words() -> str:
    """What a time of a beep is computed with."""
    meter = significant(METER_OHMS / 1000)
    least, most = (significant(ohms) for ohms in BEEP_BELOW)
    return f"The capacitor charges through the meter: about {meter} kΩ, a beep below {least} to {most} Ω"
