"""The other end of the picture, said twice and differently.

Checks: polarisation and gain of the antenna on the goggles or screen among the ground gear against
what site.yaml says of the receiving end.
Why: the margin of the picture is worked out with the one, and flown with the other.
Example: goggles with a left-hand antenna where site.yaml says right-hand.
Mend: look at the antenna, and correct the one that is wrong.
Source: the statements themselves
"""

import re
from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.kinds import GroundGear
from builder.rules.compare import clash
from builder.rules.rule import Case, Judged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK
_SITE = Where("site.yaml", ("radio",))
_SAME = assumed("statements/gain")
_GAIN = re.compile(r"\s*(-?\d+(?:\.\d+)?)\s*dB", re.IGNORECASE)


def check(case: Case) -> Iterator[Outcome]:
    radio = case.build.site.radio
    for gear in case.build.of_kind(GroundGear):
        mine, at = gear.part.polarisation, gear.shelf_where
        wanted = radio.video_polarisation
        if mine is not None and wanted is not None:
            if mine.casefold() == wanted.casefold():
                yield Judged()
            else:
                text = f"{gear.key} receives {mine}; site.yaml says {wanted}."
                hint = "Look at the antenna, and correct the one that is wrong."
                yield clash(text, hint, at.at("polarisation"), _SITE.at("video_polarisation"))
        said, gain = _GAIN.match(gear.part.gain or ""), radio.video_receive_gain
        if said is None or gain is None:
            continue
        if abs(float(said[1]) - gain.value) <= _SAME:
            yield Judged()
            continue
        own, theirs = given(float(said[1]), "dB"), given(gain.value, "dB")
        text = say("The antenna of {} has {}; site.yaml says {}.", gear.key, own, theirs)
        hint = "Read the antenna's label, and correct the one that is wrong."
        yield clash(text, hint, at.at("gain"), _SITE.at("video_receive_gain"))
