"""The lines of a gate with their boxes: head, current, the battery alone at the last gate, and the
end without power.
"""

from builder.compute.figures.figure import Figure
from builder.compute.loops.plugging import every_battery
from builder.compute.power_up.emptied import battery_minus
from builder.compute.power_up.gate import Gate
from builder.compute.power_up.gate_power import BLEEDER_WATTS, SAFE_VOLTS, Discharge
from builder.model.build import Build
from builder.model.kinds import Capacitor, Motor, Propeller, SatelliteReceiver
from builder.pages.blocks import Bullets, Inline, Paragraph, Span, Tick, WriteIn
from builder.pages.numbers import number
from builder.pages.work.lost_link import at_bench, soon
from builder.rounding import rounded

_Line = tuple[Inline, ...]
# s that the limit lamp may be lit, where nothing longer is computed (common practice, no source)
_FLASH = 0.1


def _list(gate: Gate, stage: str, lines: list[_Line]) -> Bullets:
    return Bullets(
        tuple((Tick(f"gate-{gate.letter}-{stage}{i}"), *line) for i, line in enumerate(lines))
    )


def _said(words: str) -> _Line:
    return (Span(words),)


def supply_volts(gate: Gate) -> str:
    """What the supply is set to, in words."""
    return (
        f"{rounded(gate.supply_low, 1)} V"
        if gate.supply_low is not None
        else "volts of the battery: not known"
    )


def _at(gate: Gate) -> str:
    return f" at {gate.plug}" if gate.plug else ""


def bleeder_words(found: Discharge) -> str:
    """The resistor that empties the battery net: `1 kΩ, 2 W`."""
    return f"{found.ohms / 1000:g} kΩ, {BLEEDER_WATTS:g} W"


def before(gate: Gate) -> Bullets:
    """That nothing is live before a meter in its ohm range, or a hand, goes on."""
    meter = "Meter: leads in the sockets for volts and ohms, not in the one for amperes."
    words = (
        f"Supply, battery and USB are unplugged. Plus to minus{_at(gate)} reads under"
        f" {SAFE_VOLTS:g} V."
    )
    return _list(gate, "off", [_said(meter), _said(words)])


def _flash(found: Discharge) -> str:
    """How long the limit lamp may be lit: never less than a tenth of a second, a tenth more than is
    computed.
    """
    computed = found.flash.value if isinstance(found.flash, Figure) else 0.0
    return rounded(max(_FLASH, computed + 0.05), 1)


def _current(gate: Gate) -> _Line:
    """The current to expect, or that it is to be noted because somebody's draw is not known."""
    taken, key = gate.power, f"gate-{gate.letter}-amps"
    if taken.low is None or taken.high is None:
        who = f": the draw of {', '.join(taken.unknown)} is not known" if taken.unknown else ""
        return (Span(f"Supply: note the current it settles at{who}. "), WriteIn(key, "read", "A"))
    band = f"{rounded(taken.low.value, 2)} to {rounded(taken.high.value, 2)} A"
    return (Span("Supply: read the current it settles at. "), WriteIn(key, "read", "A", band))


def _minus_probe(build: Build, gate: Gate) -> list[_Line]:
    """The probe that stays on minus goes on before the power does, at the first board on the
    battery.
    """
    if all(v.reach == "none" for v in gate.volts):
        return []
    where = battery_minus(build)
    minus = f"{where}, battery minus," if where else "battery minus"
    return [
        _said(
            f"Meter to volts. Clip its minus probe to {minus} now, with the power off. It must not"
            " be able to turn onto another contact."
        )
    ]


def head(build: Build, gate: Gate) -> Bullets:
    """How power is put on from a bench supply."""
    lines: list[_Line] = []
    what = (
        "the capacitor charges" if build.of_kind(Capacitor) else "capacitors on the boards charge"
    )
    if bool(build.of_kind(Motor)) and bool(build.of_kind(Propeller)):
        lines.append(_said("The propellers are off."))
    lines += [
        _said(f"Supply: output off. Set {supply_volts(gate)}."),
        (
            Span("Set the current limit to "),
            number(gate.limit),
            Span(", the way the supply's maker says."),
        ),
        _said(
            "Check the lead while its end is free. Output on: red to black reads what you set,"
            " without a minus sign. Supply off. Wait until it reads under"
            f" {SAFE_VOLTS:g} V."
        ),
        _said(f"Connect the lead{_at(gate)}: red to plus, black to minus."),
        _said("Check the polarity again, from the supply to the board."),
        *_minus_probe(build, gate),
        _said(
            f"Switch the output on. The limit lamp may flash for {_flash(gate.discharge)} s:"
            f" {what}. If it stays on, switch off."
        ),
        _current(gate),
    ]
    return _list(gate, "on", lines)


def discharge_formula(found: Discharge) -> str:
    """By what the time of a discharge was computed; '' where it was not."""
    if not isinstance(found.time, Figure) or not found.farads or found.volts is None:
        return ""
    return (
        f"computed by R·C·ln(V / {SAFE_VOLTS:g} V) for {rounded(1e6 * found.farads, 0)} µF from"
        f" {rounded(found.volts, 1)} V"
    )


def _computed(found: Discharge, *, formula: bool) -> tuple[Inline, ...]:
    """How long the discharge takes by the build's capacitors, and that it was computed, not
    measured.
    """
    if not isinstance(found.time, Figure) or found.farads is None or found.volts is None:
        return (Span(" How long that takes is not known."),)
    if not found.farads:
        return (Span(" The build lists no capacitor; those on the boards need a moment."),)
    by = f", {discharge_formula(found)}" if formula else ""
    return (Span(" About "), number(found.time), Span(f"{by}."))


def end(build: Build, gate: Gate, *, formula: bool = True) -> Bullets:
    """How a gate ends: without power, and with nothing left in the capacitor. `formula` says by what
    the time was computed.
    """
    first = f"Supply off. Unplug its lead at the aircraft{f' ({gate.plug})' if gate.plug else ''}."
    if gate.closing:
        first = f"Unplug {every_battery(build)} at the aircraft. Put it aside."
    lines: list[_Line] = [
        _said(first),
        _said(
            f"Hold the insulated {bleeder_words(gate.discharge)} resistor across plus and"
            f" minus{_at(gate)}."
        ),
        _said("Never short plus to minus with a tool."),
        (
            Span(f"Wait until plus to minus{_at(gate)} reads under {SAFE_VOLTS:g} V."),
            *_computed(gate.discharge, formula=formula),
        ),
    ]
    if gate.closing:
        lines.append(_said("Only now fit the propellers."))
    return _list(gate, "end", lines)


def _outdoors(build: Build) -> list[_Line]:
    """Nobody carries an aircraft about that has power: it goes out before."""
    if not build.of_kind(SatelliteReceiver):
        return []
    text = "Now go outdoors, unplugged, propellers off: arming may wait for satellites."
    return [_said(text)]


def battery_alone(build: Build, gate: Gate) -> Bullets:
    """The last gate: from the battery without a limiter, motors, arming and fail-safe, once."""
    motors = sum(f.count for f in build.of_kind(Motor))
    plan = build.source.setup.fail_safe
    lines = [
        _said(
            f"Supply off. Unplug its lead, or {every_battery(build)}. Wait until plus to minus"
            f"{_at(gate)} reads under {SAFE_VOLTS:g} V, as below."
        ),
        _said("Take the limiter out, if one is in."),
        *_outdoors(build),
        _said(
            f"Keep everything clear of the motors. Plug in {every_battery(build)}: red to plus, black"
            " to minus."
        ),
        _said(
            f"Without a fan it stays on for at most {rounded(gate.dwell, 0)} s at a time. What takes"
            " longer, as the wait for satellites, takes a fan."
        ),
    ]
    if motors:
        each = "the motor" if motors == 1 else f"each of the {motors} motors"
        lines += [
            _said(f"Turn {each} once at the lowest throttle. Check the corner and the direction."),
            _said("Arm: the motors idle. Switch to safe: they stop at once."),
        ]
    lines.append(
        _said(f"Arm, then switch the transmitter off. Watch:{soon(plan)} {at_bench(plan)}.")
    )
    if plan is not None and plan.does != "motors stop":
        lines.append(_said("Then switch it on again and switch to safe: the motors stop at once."))
    return _list(gate, "battery", lines)


def limiter_rating(gate: Gate) -> str:
    """What a series limiter has to be rated for at a gate; 'not known' where it cannot be derived."""
    rating = gate.power.limiter
    if rating is None:
        who = (
            f": the draw of {', '.join(gate.power.unknown)} is not known"
            if gate.power.unknown
            else ""
        )
        return f"rating not known{who}"
    volts = (
        f", for {rounded(gate.supply_high, 1)} V or more" if gate.supply_high is not None else ""
    )
    return f"carries {rounded(rating[0], 2)} A, trips at {rounded(rating[1], 2)} A at most{volts}"


SIGHT = "a lamp flashes, then goes dark or dim, any other limiter stays cold, and"


def limiter(gate: Gate, *, sight: bool = True) -> Paragraph:
    """How to go without a bench supply: the limiter, what to see, and when it is taken out. `sight`
    is off where what holds for most gates was said before the first.
    """
    see = f"See: {SIGHT} the volts are as below." if sight else ""
    out = "Leave it in for all of this gate." if sight else "Leave it in."
    if gate.closing:
        see = f"Put it in again: a wire may be pinched now. See: {SIGHT} the boards start."
        out = "It comes out at 3."
    if gate.power.limiter is None:
        see, out = "Do not plug a battery in here before it is known.", "Use a bench supply."
    said = " ".join(w for w in (f"Series limiter: {limiter_rating(gate)}.", see, out) if w)
    return Paragraph((Span("Without a bench supply. ", strong=True), Span(said)))
