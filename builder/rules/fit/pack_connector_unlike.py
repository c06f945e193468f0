"""A battery that does not plug into the aircraft.

Checks: each battery's connector against the pigtails: one of the same type and the other gender.
Why: it cannot be plugged; an adapter is one more joint that gets hot.
Example: a battery with a two-blade 60 A socket and a pigtail with a two-blade 30 A plug.
Mend: take a pigtail of the battery's type; the half with live blades is the covered one.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.model.build import Build, Fitted, FittedPack
from builder.model.kinds import Connector
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def _pigtails(build: Build) -> list[tuple[Fitted, Connector]]:
    out = []
    for fitted in build.parts.values():
        if isinstance(fitted.part, Connector):
            pads = fitted.part.pads.values()
            if any(p.battery and p.role != "ground" for p in pads):
                out.append((fitted, fitted.part))
    return out


def _plugs(pack: FittedPack, pigtail: Connector) -> bool | None:
    """Whether a pack plugs in there; None where the type fits and one of the two does not say which
    half it is.
    """
    mine = pack.part.connector
    if mine is None or pigtail.type is None or mine.type.casefold() != pigtail.type.casefold():
        return False
    if mine.gender is None or pigtail.gender is None:
        return None
    return mine.gender != pigtail.gender


def check(case: Case) -> Iterator[Outcome]:
    pigtails = _pigtails(case.build)
    if not pigtails:
        return
    for pack in case.build.packs.values():
        mine = pack.part.connector
        if pack.use.through:
            leads = " and ".join(pack.use.through)
            yield NotJudged(f"which connectors {leads} has", pack.where)
        elif mine is None:
            yield NotJudged(f"connector of battery {pack.key}", pack.shelf_where)
        elif any(_plugs(pack, p) for _, p in pigtails):
            yield Judged()
        elif any(_plugs(pack, p) is None for _, p in pigtails):
            yield NotJudged(
                f"which half the connector of battery {pack.key} or its pigtail is",
                pack.shelf_where,
            )
        elif any(p.type is None for _, p in pigtails):
            fitted = next(f for f, p in pigtails if p.type is None)
            yield NotJudged(f"type of {fitted.key}", fitted.shelf_where)
        else:
            types = ((f, f"{p.type}, {p.gender}" if p.gender else p.type) for f, p in pigtails)
            has = ", ".join(f"{f.key} is {words}" for f, words in types)
            yield Found(
                f"Battery {pack.key} has {mine.type}{f', {mine.gender}' if mine.gender else ''};"
                f" {has}.",
                "Take a pigtail that plugs into the battery.",
                pack.where,
                see=(pigtails[0][0].where,),
            )
