"""A satellite receiver too near to an antenna that sends.

Checks: the way from each satellite receiver to the video antenna, and to the control antenna where the receiver
answers with telemetry: 50 mm are wanted.
Why: what comes from satellites is far weaker than what leaks beside a transmitter. The aircraft then does not know
where home is.
Example: a satellite receiver 20 mm from the video antenna.
Mend: put it on a mast at the other end of the frame.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import dist

from builder.compute.geometry.clearances import control_antennas, point, video_antennas
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed
from builder.model.build import Build, Fitted
from builder.model.kinds import Receiver, SatelliteReceiver
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
_WANTED = assumed("radio/satellite-room")
_MEND = "Put the satellite receiver on a mast, away from antennas that send."


def _sending(build: Build) -> tuple[Fitted, ...]:
    """Antennas that send: of the picture, and of a receiver that answers."""
    answers = any(
        f.part.telemetry is not None and not f.part.one_way for f in build.of_kind(Receiver)
    )
    return (*video_antennas(build), *(control_antennas(build) if answers else ()))


def check(case: Case) -> Iterator[Outcome]:
    for satellite in case.build.of_kind(SatelliteReceiver):
        here = point(satellite.use.at)
        for antenna in _sending(case.build):
            there = point(antenna.use.at)
            if here is None or there is None:
                lacks = satellite if here is None else antenna
                yield NotJudged(f"place of {lacks.key}", lacks.where)
                continue
            way = dist(here, there)
            if way >= _WANTED:
                yield Judged()
                continue
            text = say(
                "{} is {} from {}, which sends; {} are wanted.",
                satellite.key,
                made(way, "m"),
                antenna.key,
                given(_WANTED, "m"),
            )
            yield clash(text, _MEND, satellite.where.at("at"), antenna.where)
