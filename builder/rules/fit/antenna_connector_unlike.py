"""An antenna that does not go on its radio.

Checks: the coaxial connector of each radio against the antennas of the build: one of the same type
and the other gender.
Why: it cannot be plugged, and a wrong one forced on breaks the contact off the board.
Example: a press-on antenna for a radio with a snap connector, or two sockets.
Mend: take the antenna with the radio's connector, or an adapter, which costs range.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.clearances import video_antennas
from builder.diagnostics.finding import Severity
from builder.model.build import FittedAs
from builder.model.kinds import Antenna, Receiver, VideoTransmitter
from builder.model.kinds.onboard import Coax
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def _fits(radio: Coax, antenna: Coax) -> bool:
    if radio.type.casefold() != antenna.type.casefold():
        return False
    return radio.gender is None or antenna.gender is None or radio.gender != antenna.gender


def _one(
    radio: FittedAs[VideoTransmitter | Receiver], antennas: list[FittedAs[Antenna]]
) -> Outcome | None:
    coax = radio.part.coax
    if not antennas or radio.part.antenna in ("chip", "fixed"):
        return None
    if coax is None:
        return NotJudged(f"antenna connector of {radio.key}", radio.shelf_where)
    known = [(f, f.part.coax) for f in antennas if f.part.coax is not None]
    if any(_fits(coax, c) for _, c in known):
        return Judged()
    if len(known) < len(antennas):
        other = next(f for f in antennas if f.part.coax is None)
        return NotJudged(f"antenna connector of {other.key}", other.shelf_where)
    types = ((f, f"{c.type}, {c.gender}" if c.gender else c.type) for f, c in known)
    has = ", ".join(f"{f.key}: {words}" for f, words in types)
    return Found(
        f"{radio.key} has {coax.type}{f', {coax.gender}' if coax.gender else ''}; {has}.",
        "Take the antenna with the radio's connector.",
        known[0][0].where,
        see=(radio.where,),
    )


def check(case: Case) -> Iterator[Outcome]:
    video = {f.key for f in video_antennas(case.build)}
    build = case.build
    radios: tuple[FittedAs[VideoTransmitter | Receiver], ...] = (
        *build.of_kind(VideoTransmitter),
        *build.of_kind(Receiver),
    )
    for radio in radios:
        sends_video = isinstance(radio.part, VideoTransmitter)
        outcome = _one(
            radio, [f for f in build.of_kind(Antenna) if (f.key in video) == sends_video]
        )
        if outcome is not None:
            yield outcome
