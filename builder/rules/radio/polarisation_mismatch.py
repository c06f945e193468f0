"""Polarisation of the two ends differs.

Checks: the video antenna's polarisation against that of the antenna on the ground. That of the hand
transmitter's antenna is compared with the receiver's, where both are said.
Why: linear against circular loses 3 dB, half the power; left-hand against right-hand loses nearly
all.
Example: a left-hand antenna on the aircraft and a right-hand one on the ground.
Mend: fit antennas of one polarisation to both ends.
Source: polarisation efficiency as in IEEE Std 145 (from memory)
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.radio._links import links
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for link, where in links(case):
        video = link.serves == "video"
        if not link.sent or not link.received:
            if not video:
                continue  # a chip or a whip of its own says nothing of it
            yield NotJudged("polarisation of both ends of the video link unknown", where)
        elif link.sent == link.received:
            yield Judged()
        else:
            half = "linear" in (link.sent, link.received)
            loses = "half the power is lost" if half else "nearly all of the power is lost"
            what = "The picture" if video else "The control link"
            message = f"{what} is sent {link.sent} and received {link.received}: {loses}."
            severity = Severity.REMARK if half else Severity.FAULT
            yield Found(message, "Fit antennas of one polarisation to both ends.", where, severity)
