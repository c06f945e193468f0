"""Coating over what must stay bare.

Checks: what the builder's steps coat (`coats`): contacts of sockets, connectors, cameras, antennas,
motors, propellers, batteries, and places that stay open (usb, button, lens, sensor, socket).
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
from builder.model.values.words import OPEN_PLACES, own_words
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
_BARE = (Antenna, Camera, Connector, Motor, Propeller)


def _why_bare(build: Build, name: str) -> str:
    """Why a named thing stays bare, or ''."""
    key, _, rest = name.partition(".")
    fitted = build.parts.get(key)
    if name in build.packs:
        return "a battery is never coated"
    if fitted is None:
        return "it has to stay open" if name in OPEN_PLACES else ""
    if isinstance(fitted.part, _BARE):
        return f"a {fitted.part.KIND} stays bare"
    pad = rest.split(".")[-1]
    sockets = fitted.part.sockets
    if pad in sockets or any(pad in s.contacts for s in sockets.values()):
        return "its contacts have to conduct"
    return ""


def check(case: Case) -> Iterator[Outcome]:
    for i, step in coating_steps(case.build):
        if not step.coats:
            yield NotJudged(
                f"what {step.id} coats: name it under coats", case.build.where("steps", i)
            )
        for at, name in enumerate(step.coats):
            where = case.build.where("steps", i, "coats", at)
            own, why = own_words(name), _why_bare(case.build, name)
            if own is not None:
                yield NotJudged(f"whether {own!r} may be coated", where)
            elif why:
                hint = "Mask it, and name only what is to be coated."
                yield Found(f"{step.id} coats {name}: {why}.", hint, where)
            else:
                yield Judged()
