"""Figures of a supply that cannot both be right.

Checks: in each part, idle, typical and peak draw in this order, and its power against its current.
What a rail gives for long is compared with what it gives for a while. The input volts and dropout
of a converter are compared with its own volts. The board's list and the rail itself say the same of
power on USB. Continuous current is compared with short current. The cells are compared with the
volts that a part accepts. Volts and draw of a buzzer, a row of lights and a power step are compared
with its supply. Connectors of one type carry the same current, at the battery and at the aircraft.
Why: plans and gates use one of the two, and nobody knows which of them is right.
Example: a speed controller for 3 to 6 cells that accepts 9 V to 18 V.
Mend: look at the part or its paper, and correct the figure that is wrong.
Source: the figures themselves; full volts of a cell: cell data sheets
"""

from collections.abc import Iterator
from itertools import pairwise

from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, Fitted, FittedPack
from builder.model.kinds import (
    Buzzer,
    CombinedBoard,
    Connector,
    FlightController,
    Lights,
    SpeedController,
    VideoTransmitter,
)
from builder.model.source.feeding import Rail
from builder.rules.compare import clash, not_above, same_value
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, say, span

SEVERITY = Severity.FAULT
OF_EACH_PART = True
YIELDS_TO = (
    "power/dead-on-usb",
    "power/rail-overloaded",
    "power/speed-controller-current",
    "power/connector-current",
    "power/converter-starved",
    "power/step-up-overrun",
    "power/usb-overloaded",
    "power/volts-outside-accepted",
    "power/speed-controller-cells",
)
_MILD = Severity.REMARK
_FULL, _ = assumed_list("battery/lithium-polymer")
_OPEN = assumed("statements/cells-above")
_FEW = assumed("statements/at-other-volts")


def _value(quantity: object) -> float | None:
    return getattr(quantity, "value", None)


def _current(burst: object) -> float | None:
    return getattr(burst, "current", None)


def _draw(fitted: Fitted) -> Iterator[Outcome | None]:
    supply = fitted.part.supply
    if supply is None:
        return
    draw, at = supply.draw, fitted.shelf_where.at("supply", "draw")
    idle, typical, peak = _value(draw.idle), _value(draw.typical), _current(draw.peak)
    yield not_above(fitted.key, ("idle", idle), ("typical", typical), "A", at)
    yield not_above(fitted.key, ("typical", typical), ("peak", peak), "A", at)
    volts = _value(supply.at)
    if typical is not None and draw.power is not None and volts is not None:
        one = ("power", draw.power.value, at.at("power"))
        two = ("typical current at its volts", typical * volts, at.at("typical"))
        yield same_value(fitted.key, one, two, "W", _FEW)
    if supply.idle is not None and draw.idle is not None:
        of_draw = ("draw idle", idle, at.at("idle"))
        of_part = ("supply idle", supply.idle.value, fitted.shelf_where.at("supply", "idle"))
        yield same_value(fitted.key, of_part, of_draw, "A")


def _converter(fitted: Fitted, name: str, rail: Rail) -> Iterator[Outcome | None]:
    volts, at = _value(rail.volts), fitted.shelf_where.at("rails", name)
    what = f"rail {name} of {fitted.key}"
    least = _value(rail.min_in)
    if rail.converter in ("step-down", "linear"):
        yield not_above(what, ("volts", volts), ("min_in", least), "V", at)
    lost = _value(rail.dropout)
    if volts is None or least is None or lost is None or rail.converter == "step-up":
        return
    if least >= (volts + lost) * (1 - _OPEN):
        yield Judged()
        return
    text = say(
        "{} holds from {}, below its {} and a dropout of {}.",
        what,
        given(least, "V"),
        given(volts, "V"),
        given(lost, "V"),
    )
    yield clash(text, "Correct one of the two.", at.at("min_in"), at.at("dropout"))


def _rails(fitted: Fitted) -> Iterator[Outcome | None]:
    board = fitted.part
    alive = board.on_usb if isinstance(board, FlightController | CombinedBoard) else ()
    for name, rail in board.rails.items():
        at = fitted.shelf_where.at("rails", name)
        what = f"rail {name} of {fitted.key}"
        limit = ("limit", _value(rail.limit))
        yield not_above(what, limit, ("peak", _current(rail.peak)), "A", at)
        yield not_above(what, ("usb_limit", _value(rail.usb_limit)), limit, "A", at)
        yield from _converter(fitted, name, rail)
        if alive and rail.on_usb is not None and rail.on_usb != (name in alive):
            text = f"{what}: the board's list and the rail differ on whether USB feeds it."
            hint = "Measure the rail with USB alone, and write the same in both."
            yield clash(text, hint, at.at("on_usb"), fitted.shelf_where.at("on_usb"), _MILD)


def _ratings(fitted: Fitted) -> Iterator[Outcome | None]:
    part, at = fitted.part, fitted.shelf_where
    if isinstance(part, SpeedController):
        burst = ("burst", _current(part.burst))
        yield not_above(fitted.key, ("continuous", _value(part.continuous)), burst, "A", at)
    if isinstance(part, Connector):
        short = ("short", _value(part.short))
        yield not_above(fitted.key, ("continuous", _value(part.continuous)), short, "A", at)
    accepts = part.supply.accepts if part.supply is not None else None
    if not isinstance(part, SpeedController) or part.cells is None or accepts is None:
        return
    full = _FULL * part.cells.high
    if full <= accepts.high * (1 + _OPEN):
        yield Judged()
        return
    text = say(
        "{} takes {}, full at {}, and accepts {}.",
        fitted.key,
        part.cells.label,
        given(full, "V"),
        span(accepts.low, accepts.high, "V"),
    )
    yield clash(text, "Correct one of the two.", at.at("cells"), at.at("supply", "accepts"))


def _own_volts(fitted: Fitted) -> Iterator[Outcome | None]:
    """Volts and draw of a buzzer or a row of lights, said beside its supply."""
    part, at = fitted.part, fitted.shelf_where
    if not isinstance(part, Buzzer | Lights) or part.supply is None:
        return
    accepts = part.supply.accepts
    if part.volts is not None and accepts is not None:
        if accepts.low <= part.volts.value <= accepts.high:
            yield Judged()
        else:
            text = say(
                "{} is for {} and accepts {}.",
                fitted.key,
                given(part.volts.value, "V"),
                span(accepts.low, accepts.high, "V"),
            )
            yield clash(text, "Correct one of the two.", at.at("volts"), at.at("supply", "accepts"))
    typical = ("typical", _value(part.supply.draw.typical), at.at("supply", "draw", "typical"))
    if isinstance(part, Buzzer):
        one = ("draw", _value(part.draw), at.at("draw"))
        yield same_value(fitted.key, one, typical, "A", _FEW)
    elif part.lamps is not None and part.each is not None:
        duty = part.duty.value if part.duty is not None else 1.0
        lit = part.lamps * part.each.current * duty
        one = ("the lamps together", lit, at.at("lamps"))
        yield same_value(fitted.key, one, typical, "A", _FEW)


def _any_step(fitted: Fitted) -> Iterator[Outcome | None]:
    """One of the power steps draws what the supply says, at the same volts."""
    part, at = fitted.part, fitted.shelf_where
    if not isinstance(part, VideoTransmitter) or part.supply is None:
        return
    supply = part.supply
    alike_volts = [s for s in part.powers if _value(s.volts) == _value(supply.at)]
    draws = [s.draw.value for s in alike_volts if s.draw is not None]
    typical = _value(supply.draw.typical)
    if not draws or typical is None:
        return
    nearest = min(draws, key=lambda draw: abs(draw - typical))
    one = ("the power step that draws so much", nearest, at.at("powers"))
    two = ("typical", typical, at.at("supply", "draw", "typical"))
    yield same_value(fitted.key, one, two, "A", _FEW)


def _joint(build: Build, pack: FittedPack) -> Iterator[Outcome | None]:
    """The connector of a battery: what it carries, and what its like at the aircraft carries."""
    mine, at = pack.part.connector, pack.shelf_where.at("connector")
    if mine is None:
        return
    what = f"connector of battery {pack.key}"
    lasting, short = _value(mine.continuous), _value(mine.short)
    yield not_above(what, ("continuous", lasting), ("short", short), "A", at)
    for fitted in build.of_kind(Connector):
        theirs = fitted.part
        if theirs.type is None or theirs.type.casefold() != mine.type.casefold():
            continue
        for name, own in (("continuous", lasting), ("short", short)):
            other = (
                f"{fitted.key} {name}",
                _value(getattr(theirs, name)),
                fitted.shelf_where.at(name),
            )
            yield same_value(what, (name, own, at.at(name)), other, "A", _FEW)


def _steps(fitted: Fitted) -> Iterator[Outcome | None]:
    """More power is not drawn with less current at the same volts."""
    part, at = fitted.part, fitted.shelf_where
    if not isinstance(part, VideoTransmitter):
        return
    steps = [(i, s) for i, s in enumerate(part.powers) if s.draw is not None]
    steps.sort(key=lambda pair: pair[1].power.value)
    for (i, low), (j, high) in pairwise(steps):
        if _value(low.volts) != _value(high.volts) or low.draw is None or high.draw is None:
            continue
        if low.draw.value <= high.draw.value:
            yield Judged()
            continue
        text = say(
            "{} draws {} at the smaller power and {} at the larger.",
            fitted.key,
            given(low.draw.value, "A"),
            given(high.draw.value, "A"),
        )
        hint = "One of the two is a slip: check both."
        where, other = at.at("powers", i, "draw"), at.at("powers", j, "draw")
        yield clash(text, hint, where, other, _MILD)


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.parts.values():
        for look in (_draw, _rails, _ratings, _own_volts, _any_step, _steps):
            yield from (said for said in look(fitted) if said is not None)
    for pack in case.build.packs.values():
        yield from (said for said in _joint(case.build, pack) if said is not None)
