"""A control antenna too near to what deafens it.

Checks: its place against carbon arms (15 mm), the video antenna (30 mm) and battery leads (20 mm).
Why: carbon shields it, the video transmitter drowns it, and battery leads carry the noise of the
speed controller.
Example: an antenna taped along a carbon arm.
Mend: stand it clear of the frame, away from the video antenna, and upright.
Source: common practice, no source
"""

from collections.abc import Iterator
from math import dist

from builder.compute.geometry.clearances import (
    Between,
    control_antennas,
    from_arms,
    from_battery_leads,
    point,
    video_antennas,
)
from builder.diagnostics.finding import Severity
from builder.load.assumed import assumed_list
from builder.model.build import Build, Fitted
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK
_ARM, _VIDEO, _LEADS = assumed_list("mounting/antenna-room")


def _from_video(build: Build, what: Fitted) -> Between | None:
    here = point(what.use.at)
    if here is None:
        return None
    places = [(other.key, point(other.use.at)) for other in video_antennas(build)]
    ways = [(key, dist(here, there)) for key, there in places if there is not None]
    found = [Between(what.key, key, way, what.where) for key, way in ways]
    return min(found, key=lambda f: f.distance, default=None)


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    for what in control_antennas(build):
        if what.use.at is None:
            yield NotJudged(f"place of {what.key}", what.where)
            continue
        looked_at = (
            (from_arms(build, what), _ARM),
            (_from_video(build, what), _VIDEO),
            (from_battery_leads(build, what), _LEADS),
        )
        known = [(found, least) for found, least in looked_at if found is not None]
        near = [(found, least) for found, least in known if found.distance < least]
        for found, least in near:
            yield Found(
                say(
                    "{} is {} from {}; {} are wanted.",
                    what.key,
                    made(found.distance, "m"),
                    found.second,
                    given(least, "m"),
                ),
                "Stand it clear of carbon, video antenna and battery leads.",
                what.where,
            )
        if not near:
            yield Judged()
