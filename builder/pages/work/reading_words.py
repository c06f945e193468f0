"""What is expected of a reading with the power off, and why, with the numbers rounded."""

from builder.compute.power_up.gate_readings import BEEP_BELOW, METER_OHMS, Beep, GateReading
from builder.rounding import rounded, significant


def expected_words(reading: GateReading) -> str:
    """What the meter shows, with the time of a beep where it is known."""
    beep = reading.beep
    if beep is None:
        return reading.expect
    shortest, longest = (rounded(1000 * seconds, 0) for seconds in (beep.low, beep.high))
    times = f"computed: {shortest} to {longest} ms"
    return f"one short beep or none ({times}), then rises to kilo-ohms or more"


def reason_words(reading: GateReading) -> str:
    """Why, with what reads low by nature and what is one net."""
    why = reading.why
    if reading.beep is not None:
        why += _of_beep(reading.beep)
    low = [between + _about(ohms) for between, ohms in reading.normal]
    if low:
        why += f"; normal: {', '.join(low)}"
    if reading.one_net:
        why += f"; one net, they beep: {', '.join(reading.one_net)}"
    return why


def _about(ohms: float | None) -> str:
    return "" if ohms is None else f" about {significant(ohms)} Ω"


def _of_beep(beep: Beep) -> str:
    meter = significant(METER_OHMS / 1000)
    least, most = (significant(ohms) for ohms in BEEP_BELOW)
    return (
        f". Longer than {rounded(beep.fault, 1)} s is a fault. The capacitor charges through the"
        f" meter: about {meter} kΩ, a beep below {least} to {most} Ω"
    )
