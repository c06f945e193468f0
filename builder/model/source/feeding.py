"""What feeds a part and what it draws: loads, supply and rails."""

import re
from typing import Any, ClassVar, Literal

from pydantic import model_validator

from builder.model.values.base import Frozen, Short
from builder.model.values.bounds_of_circuits import (
    Dropout,
    Efficiency,
    Limit,
    LoadCurrent,
    PartPower,
    PeakDraw,
    ShortCurrent,
    SupplyVolts,
    SupplyVoltsSpan,
    Tolerance,
)
from builder.model.values.quantities import Text, Yes, parse


class Draw(Short):
    """Currents that a load takes; `peak` may say for how long. At the volts of `at`, or the lowest
    it accepts.
    """

    SHORT: ClassVar[str] = "typical"

    @model_validator(mode="before")
    @classmethod
    def _in_watts(cls, value: Any) -> Any:
        """`1.5 W`, alone or as what is typical, is its power."""
        group = {cls.SHORT: value} if isinstance(value, str) else value
        usual = group.get(cls.SHORT) if isinstance(group, dict) else None
        if isinstance(usual, str) and usual.strip().endswith(("W", "watt", "watts")):
            rest = {k: v for k, v in group.items() if k != cls.SHORT}
            return {"power": usual, **rest}
        return value

    idle: LoadCurrent | None = None  #: current at rest
    typical: LoadCurrent | None = None  #: current in use
    peak: PeakDraw | None = None  #: largest current, perhaps for how long
    start: LoadCurrent | None = None  #: current while it starts
    power: PartPower | None = None  #: power in use, where the current depends on the volts


class Supply(Frozen):
    """How a part is fed: through which pad, which volts it accepts and what it draws."""

    pad: Text | None = None  #: the pad through which it is fed
    accepts: SupplyVoltsSpan | None = None  #: volts between which it works
    draw: Draw = Draw()  #: what it takes
    idle: LoadCurrent | None = None  #: current at rest
    at: SupplyVolts | None = None  #: volts at which the draw was measured
    constant_power: Yes | None = None  #: yes if it takes more current at lower volts
    from_balance_lead: Yes = False  #: yes if it is fed from the battery's balance lead
    own_cell: Yes = False  #: yes if it has a battery of its own


_WATTS = re.compile(r"\s*([\d.,]+\s*[mk]?W)\b(.*)", re.DOTALL)


def _in_amperes(value: Any, volts: Any) -> Any:
    """What a rail gives as its current, where a maker prints its power: `10 W for 1 s` at 5 V is
    `2 A for 1 s`. Anything else is given back as it is.
    """
    said = _WATTS.fullmatch(value) if isinstance(value, str) else None
    if said is None:
        return value
    try:
        at = parse(volts, "voltage").value
        current = parse(said[1], "power").value / at
    except (ValueError, ZeroDivisionError):
        return value  # the field itself says what is wrong with it
    return f"{current:.6g} A{said[2]}"


class Rail(Frozen):
    """A supply that a board offers. `converter` says what makes it, `min_in` from what input volts
    it holds. What it gives may be said in watts too, where it has volts of its own.
    """

    @model_validator(mode="before")
    @classmethod
    def _given_in_watts(cls, value: Any) -> Any:
        if not isinstance(value, dict):
            return value
        limits = {k: value[k] for k in ("limit", "peak", "usb_limit") if k in value}
        said = {k: _in_amperes(v, value.get("volts")) for k, v in limits.items()}
        return {**value, **said}

    volts: SupplyVolts | Literal["battery"]  #: its volts, or the word battery
    tolerance: Tolerance | None = None  #: how far the volts may be off
    limit: Limit | None = None  #: current that it gives for long
    peak: ShortCurrent | None = None  #: current that it gives for a while
    #: what makes it
    converter: Literal["step-down", "step-up", "linear", "switch", "direct"] | None = None
    efficiency: Efficiency | None = None  #: share of the power that comes out
    dropout: Dropout | None = None  #: how far the input has to stand above it
    min_in: SupplyVolts | None = None  #: input volts from which it holds
    fed_from: Text | None = None  #: the rail or pad that feeds it
    on_usb: Yes | None = None  #: yes if it is alive when only USB is plugged in
    usb_limit: Limit | None = None  #: current that it gives on USB
    own_draw_inside: Yes | None = None  #: yes if the board's own draw is taken from the limit
    switched_by: Text | None = None  #: what switches it
