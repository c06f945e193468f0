"""How fast motors and blade tips turn: without load, at hover and at full throttle; tips as a share
of sound.
"""

from dataclasses import dataclass
from typing import cast

from builder.compute.figures.figure import Basis, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.sums import difference
from builder.compute.flight.air import Air
from builder.compute.flight.drive import Drive
from builder.compute.formulas.electric.electronics import shared_current
from builder.compute.formulas.magnetics.motor import loaded_speed, unloaded_speed
from builder.compute.formulas.rotors.rotor_scaling import mach_number, speed_on_volts, tip_speed
from builder.load.assumed import assumed

_KV_SHARE = assumed("flight/speed-constant-spread")
_WINDING_SHARE = assumed("flight/winding-spread")


@dataclass(frozen=True, eq=False)
class Speeds:
    """Speeds of the shaft, of the tips in still air, and Mach numbers. No load: on the full pack,
    propellers off.
    """

    no_load: MaybeFigure
    hover: MaybeFigure
    full: MaybeFigure
    tip_hover: MaybeFigure
    tip_full: MaybeFigure
    mach_full: MaybeFigure


@dataclass(frozen=True, eq=False)
class Push:
    """Full throttle on one pack: its resting volts, the current that flows, and the volts that are
    left.
    """

    resting: MaybeFigure
    current: MaybeFigure
    volts: MaybeFigure


def _constants(d: Drive) -> tuple[MaybeFigure, MaybeFigure]:
    """Speed for each volt, and resistance of the winding."""
    label, winding = "Speed of the motor for each volt", "Resistance of the winding"
    if d.motor is None:
        return Unknown("motor/kv", label, ("the motor",)), Unknown(
            "motor/resistance", winding, ("the motor",)
        )
    key, part, where = f"shelf/{d.motor.shelf}", d.motor.part, d.motor.shelf_where
    kv: MaybeFigure = Unknown(f"{key}/kv", label, (f"speed for each volt of {d.motor.shelf}",))
    if part.kv is not None:
        own = part.kv.spread if part.kv.spread is not None else _KV_SHARE * part.kv.value
        kv = leaf(f"{key}/kv", label, part.kv.value, "rad/s/V", own=own, where=where.at("kv"))
    best = part.resistance.best() if part.resistance is not None else None
    if best is None:
        return kv, Unknown(
            f"{key}/resistance", winding, (f"resistance of the winding of {d.motor.shelf}",)
        )
    basis, given = best
    own = given.spread if given.spread is not None else _WINDING_SHARE * given.value
    there = where.at("resistance")
    own_key = f"{key}/resistance"
    # The model names its bases as text.
    said = cast(Basis, basis)
    return kv, leaf(own_key, winding, given.value, "Ω", own=own, basis=said, where=there)


def _no_load(d: Drive, volts: MaybeFigure, key: str) -> MaybeFigure:
    kv, winding = _constants(d)
    idle = d.motor.part.no_load if d.motor is not None else None
    note = "full battery, no propeller"
    if idle is None or isinstance(winding, Unknown):
        note += "; losses left out, for want of resistance and current without load"
        winding = constant(f"{key}/no-winding", "Resistance of the winding, left out", 0.0, "Ω")
    current = constant(
        f"{key}/idle", "Current without load", idle.current if idle is not None else 0.0, "A"
    )
    return apply(
        f"{key}/no-load",
        "Motor speed without load",
        formula(unloaded_speed),
        kv,
        volts,
        current,
        winding,
        note=note,
    )


def _full(d: Drive, push: Push, standing: MaybeFigure, key: str) -> MaybeFigure:
    """By the bench's own speed where it was counted, else by speed for each volt less what the
    winding takes.
    """
    label, end = "Motor speed at full throttle", f"{key}/full"
    if d.bench is not None and d.bench.top_speed is not None:
        note = "the bench's speed, by the volts that are left of a full battery"
        return apply(
            end,
            label,
            formula(speed_on_volts),
            d.bench.top_speed,
            push.volts,
            d.bench.top_volts,
            d.exponents.speed,
            note=note,
        )
    kv, winding = _constants(d)
    rotors = constant(f"{key}/rotors", "Number of rotors", float(max(d.rotors, 1)), "1")
    alone = difference(
        f"{key}/motors", "Current of the motors at full throttle", "A", push.current, standing
    )
    each = apply(
        f"{key}/each",
        "Current of one motor at full throttle",
        formula(shared_current),
        alone,
        rotors,
    )
    note = "direct-current model of the motor, on the volts that are left of a full battery"
    return apply(end, label, formula(loaded_speed), kv, push.volts, each, winding, note=note)


def speeds(
    d: Drive, air: Air, push: Push, standing: MaybeFigure, hover: MaybeFigure, key: str
) -> Speeds:
    """Speeds on one pack. `hover` is the shaft's speed there, `standing` the current of all that
    does not turn.
    """
    label = "Diameter of the propeller"
    if d.propeller is None or d.propeller.part.diameter is None:
        wide: MaybeFigure = Unknown(f"{key}/diameter", label, ("diameter of the propeller",))
    else:
        wide = constant(
            f"shelf/{d.propeller.shelf}/diameter", label, d.propeller.part.diameter.value, "m"
        )
    full = _full(d, push, standing, key)
    tip = apply(f"{key}/tip-full", "Tip speed at full throttle", formula(tip_speed), full, wide)
    return Speeds(
        _no_load(d, push.resting, key),
        hover,
        full,
        apply(f"{key}/tip-hover", "Tip speed at hover", formula(tip_speed), hover, wide),
        tip,
        apply(
            f"{key}/mach", "Tip speed over the speed of sound", formula(mach_number), tip, air.sound
        ),
    )
