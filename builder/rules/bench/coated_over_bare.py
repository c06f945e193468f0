"""Coating over what must stay bare.

Checks: what the builder's coating steps cover: contacts of sockets, connectors, cameras, antennas,
motors, batteries, and whatever is called a socket, button, lens, sensor or USB.
Why: a coated contact does not conduct, a coated pressure sensor measures nothing, a coated lens
sees fog.
Example: a step that coats the camera, or the board's harness socket.
Mend: mask it, and name only what is to be coated.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.joints.bench_pieces import coating_steps
from builder.diagnostics.finding import Severity
from builder.model.build import Build
from builder.model.kinds import Antenna, Camera, Connector, Motor, Propeller
from builder.rules.rule import Case, Found, Judged, Outcome

SEVERITY = Severity.FAULT
_WORDS = ("usb", "button", "lens", "socket", "plug", "connector", "sensor", "barometer", "antenna")
_BARE = (Antenna, Camera, Connector, Motor, Propeller)


def _why_bare(build: Build, name: str) -> str:
    """Why a named thing stays bare, or ''."""
    key, _, rest = name.partition(".")
    fitted = build.parts.get(key)
    if name in build.packs:
        return "a battery is never coated"
    if fitted is None:
        return "it has to stay open" if any(w in name.casefold() for w in _WORDS) else ""
    if isinstance(fitted.part, _BARE):
        return f"a {fitted.part.KIND} stays bare"
    pad = rest.split(".")[-1]
    sockets = fitted.part.sockets
    if pad in sockets or any(pad in s.contacts for s in sockets.values()):
        return "its contacts have to conduct"
    return "it has to stay open" if any(w in pad.casefold() for w in _WORDS) else ""


def check(case: Case) -> Iterator[Outcome]:
    for i, step in coating_steps(case.build):
        reasons = [(name, _why_bare(case.build, name)) for name in step.covers]
        for name, why in reasons:
            if why:
                yield Found(
                    f"{step.id} coats {name}: {why}.",
                    "Mask it, and name only what is to be coated.",
                    case.build.where("steps", i, "covers"),
                )
        if not any(why for _, why in reasons):
            yield Judged()
