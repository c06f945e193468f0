"""A pad whose name says something else than its role.

Checks: a pad that is named for ground or for volts (`GND1`, `5V2`, `9V1`) against its role. The
volts in its name are compared with those of its rail. The name of a rail is checked in the same
way.
Why: the name is printed on the board, and the builder solders by the print; a pad of 9 V that is
printed 5V kills a camera.
Example: pad 5V2 of a board that says rail: 9V.
Mend: look at the board, and correct the role, the rail or the name.
Source: common practice, no source
"""

import re
from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.load.assumed import assumed
from builder.model.build import Fitted
from builder.model.source.electrical import Pad
from builder.rules.compare import alike, clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
YIELDS_TO = (
    "power/volts-outside-accepted",
    "wiring/supplies-joined",
    "wiring/supply-to-ground",
)
_GROUND = re.compile(r"[A-Z]?GND\d*(?:[-_ ].*)?", re.IGNORECASE)
_VOLTS = re.compile(r"(\d{1,2}(?:[.,]\d)?)\s*V(?:\d{0,2})(?:[-_ ](?:IN|OUT))?", re.IGNORECASE)
_OF_3V3 = re.compile(r"(\d)V(\d)", re.IGNORECASE)
_NEAR = assumed("statements/volts-in-name")


def named_volts(name: str) -> float | None:
    """The volts that a name says: 5 for `5V2`, 3.3 for `3V3`; None where it says none."""
    if name.upper() == "3V3" or name.upper() == "1V8":
        whole = _OF_3V3.fullmatch(name)
        return float(f"{whole[1]}.{whole[2]}") if whole is not None else None
    said = _VOLTS.fullmatch(name)
    return float(said[1].replace(",", ".")) if said is not None else None


def _pad(fitted: Fitted, name: str, pad: Pad) -> Outcome | None:
    at = fitted.shelf_where.at("pads", name)
    if _GROUND.fullmatch(name):
        if pad.role in ("ground", "sink", "unconnected"):
            return Judged()
        text = f"{fitted.key}.{name} is named for ground, and its role is {pad.role}."
        return clash(
            text, "Look at the board, and correct the one that is wrong.", at.at("role"), at
        )
    volts = named_volts(name)
    if volts is None:
        return None
    if pad.role == "ground":
        text = f"{fitted.key}.{name} is named for volts, and its role is ground."
        return clash(
            text, "Look at the board, and correct the one that is wrong.", at.at("role"), at
        )
    rail = fitted.part.rails.get(pad.rail or "")
    if rail is None or rail.volts == "battery" or pad.role != "supply":
        return None
    if alike(volts, rail.volts.value, _NEAR):
        return Judged()
    text = say(
        "{}.{} is on rail {}, which has {}.",
        fitted.key,
        name,
        pad.rail,
        given(rail.volts.value, "V"),
    )
    hint = "Measure the pad, and correct the rail or the name."
    return clash(text, hint, at.at("rail"), fitted.shelf_where.at("rails", str(pad.rail), "volts"))


def _rails(fitted: Fitted) -> Iterator[Outcome]:
    for name, rail in fitted.part.rails.items():
        volts = named_volts(name)
        if volts is None or rail.volts == "battery":
            continue
        if alike(volts, rail.volts.value, _NEAR):
            yield Judged()
            continue
        at = fitted.shelf_where.at("rails", name)
        text = say("Rail {} of {} has {}.", name, fitted.key, given(rail.volts.value, "V"))
        yield clash(
            text, "Measure the rail, and correct its volts or its name.", at.at("volts"), at
        )


def check(case: Case) -> Iterator[Outcome]:
    for fitted in case.build.parts.values():
        yield from _rails(fitted)
        for name, pad in fitted.part.pads.items():
            said = _pad(fitted, name, pad)
            if said is not None:
                yield said
