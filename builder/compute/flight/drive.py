"""What turns: motors, propellers, and the bench table of the two."""

from dataclasses import dataclass
from math import fsum

from builder.compute.circuit.pack_volts import volts_of_packs
from builder.compute.flight.bench_rows import BenchRows, bench
from builder.compute.flight.under_sag import Exponents, exponents
from builder.model.build import Build, FittedAs
from builder.model.kinds import Frame, Motor, Propeller
from builder.model.kinds.drive import BenchTable


@dataclass(frozen=True, eq=False)
class Drive:
    """What turns: how many rotors, motor, propeller, and the bench table of the two if the shelf
    has one.

    `table` is as the shelf has it, `bench` the same as figures; `exponents` say what other volts do
    to full throttle.
    """

    rotors: int
    motor: FittedAs[Motor] | None
    propeller: FittedAs[Propeller] | None
    table: BenchTable | None
    bench: BenchRows | None
    exponents: Exponents


def drive(build: Build) -> Drive:
    """The build's motors and propellers."""
    motors, propellers = build.of_kind(Motor), build.of_kind(Propeller)
    motor, propeller = next(iter(motors), None), next(iter(propellers), None)
    index = -1
    if motor is not None and propeller is not None:
        tables = enumerate(motor.part.bench)
        own = ((i, t) for i, t in tables if t.propeller == propeller.shelf)
        usable = [(i, t) for i, t in own if len({r.thrust.value for r in t.rows}) >= 2]
        if usable:  # of several volts, the table nearest to the packs' nominal volts
            volts = [p.nominal for p in volts_of_packs(build)]
            near = fsum(volts) / len(volts) if volts else usable[0][1].volts.value
            index = min(usable, key=lambda it: (abs(it[1].volts.value - near), it[0]))[0]
    made = bench(build, motor, index) if motor is not None and index >= 0 else None
    table = motor.part.bench[index] if motor is not None and index >= 0 else None
    count = motor.count if motor is not None else 0
    return Drive(count, motor, propeller, table, made, exponents(motor, table))


def ducts(build: Build) -> bool:
    """Whether the frame's rotors turn in ducts, whose gain the theory here leaves out."""
    return any(f.part.ducts for f in build.of_kind(Frame))
