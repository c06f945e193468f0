"""Full throttle on one battery: thrust, current and sag, solved together."""

from builder.compute.circuit.rails import PowerPlan
from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant
from builder.compute.figures.sloped_formula import formula
from builder.compute.flight.air import Air
from builder.compute.flight.drive import Drive
from builder.compute.flight.energy import Energy
from builder.compute.flight.wash import by_wash
from builder.compute.formulas.electric.battery import volts_under_load
from builder.compute.formulas.rotors.sag import bench_full_thrust, punch_current
from builder.compute.formulas.rotors.wash import thrust_in_wash
from builder.model.build import Build


def full_thrust(
    build: Build, d: Drive, there: Air, energy: Energy, power: PowerPlan, key: str
) -> MaybeFigure:
    """Thrust of all motors at full throttle, at the volts that are left of the pack's mean volts
    then.
    """
    label = "Full thrust"
    if d.bench is None:
        return Unknown(
            f"{key}/full-thrust", label, ("a bench table of this motor with this propeller",)
        )
    _, sagging = punch(
        build, d, energy, power, f"{key}/mean", energy.mean_volts, "battery at its mean volts"
    )
    volts = sagging if isinstance(sagging, Figure) else energy.mean_volts
    note = "thrust by an exponent of the volts and with the density of the air; "
    note += (
        "volts sagging from the mean"
        if volts is sagging
        else "no sag, for want of the battery's resistance"
    )
    rotors = constant(f"{build.name}/rotors", "Number of rotors", float(d.rotors), "1")
    b = d.bench
    clear = apply(
        f"{key}/full-thrust",
        label,
        formula(bench_full_thrust),
        b.top_thrust,
        b.top_volts,
        volts,
        there.density,
        b.density,
        rotors,
        d.exponents.thrust,
        note=note,
    )
    label = "Full thrust, rotors in another's wash"
    return by_wash(build, clear, f"{key}/in-wash", label, thrust_in_wash)


def punch(
    build: Build,
    d: Drive,
    energy: Energy,
    power: PowerPlan,
    key: str,
    resting: MaybeFigure,
    state: str = "full battery",
) -> tuple[MaybeFigure, MaybeFigure]:
    """Current at full throttle solved with the sag, and the volts that are left, from the pack's
    resting volts.
    """
    label = "Current at full throttle"
    b = d.bench
    if b is None:
        missing = ("a bench table of this motor with this propeller",)
        return Unknown(f"{key}/punch", label, missing), Unknown(
            f"{key}/sag", "Volts at full throttle", missing
        )
    rotors = constant(f"{build.name}/rotors", "Number of rotors", float(d.rotors), "1")
    current = apply(
        f"{key}/punch",
        label,
        formula(punch_current),
        b.top_current,
        b.top_current_volts,
        resting,
        energy.heavy_resistance,
        rotors,
        power.standing_current,
        d.exponents.current,
        note=f"{state}; sag and current solved together; motor current by an exponent of the volts",
    )
    sag = apply(
        f"{key}/sag",
        "Volts at full throttle",
        formula(volts_under_load),
        resting,
        current,
        energy.heavy_resistance,
    )
    return current, sag
