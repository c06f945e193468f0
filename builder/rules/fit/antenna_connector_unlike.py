"""An antenna that does not go on its radio.

Checks: the coaxial connector of each radio against the antennas of the build: one of the same type and the other
gender.
Why: it cannot be plugged, and a wrong one forced on breaks the contact off the board.
Example: a press-on antenna for a radio with a snap connector, or two sockets.
Mend: take the antenna with the radio's connector, or an adapter, which costs range.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.clearances import video_antennas
from builder.diagnostics.finding import Severity
from builder.model.build import Fitted
from builder.model.kinds import Antenna, Receiver, VideoTransmitter
from builder.model.kinds.onboard import Coax
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def _fits(radio: Coax, antenna: Coax) -> bool:
    if radio.type.casefold() != antenna.type.casefold():
        return False
    return radio.gender is None or antenna.gender is None or radio.gender != antenna.gender


def _one(radio: Fitted, antennas: list[Fitted]) -> Outcome | None:
    coax: Coax | None = getattr(radio.part, "coax", None)
    if not antennas or getattr(radio.part, "antenna", None) in ("chip", "fixed"):
        return None
    if coax is None:
        return NotJudged(f"antenna connector of {radio.key}", radio.shelf_where)
    known = [(f, c) for f in antennas if isinstance(c := getattr(f.part, "coax", None), Coax)]
    if any(_fits(coax, c) for _, c in known):
        return Judged()
    if len(known) < len(antennas):
        other = next(f for f in antennas if getattr(f.part, "coax", None) is None)
        return NotJudged(f"antenna connector of {other.key}", other.shelf_where)
    has = ", ".join(f"{f.key}: {c.type}{f', {c.gender}' if c.gender else ''}" for f, c in known)
    return Found(
        f"{radio.key} has {coax.type}{f', {coax.gender}' if coax.gender else ''}; {has}.",
        "Take the antenna with the radio's connector.",
        known[0][0].where,
        see=(radio.where,),
    )


def check(case: Case) -> Iterator[Outcome]:
    video = {f.key for f in video_antennas(case.build)}
    for kind in (VideoTransmitter, Receiver):
        antennas = [f for f in case.build.of_kind(Antenna) if (f.key in video) == (kind is VideoTransmitter)]
        for radio in case.build.of_kind(kind):
            outcome = _one(radio, antennas)
            if outcome is not None:
                yield outcome
