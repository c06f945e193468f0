"""Margin of the picture too small.

Checks: the margin of the video link at the stated range, less the fade margin that site.yaml asks
for.
Why: free space is the best case; a body, a wet tree or a turned antenna takes 10 dB and more.
Example: a margin of 6 dB at 300 m where 10 dB are asked for.
Mend: fly nearer, or use an antenna of more gain on the ground, where no power limit counts it.
Source: Rec. ITU-R P.525 for free space; the fade margin is the builder's own
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Unknown
from builder.diagnostics.finding import Severity
from builder.rules.radio._links import links
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.REMARK


def check(case: Case) -> Iterator[Outcome]:
    wanted = case.build.site.radio.fade_margin
    for link, where in links(case):
        if link.serves != "video" or wanted is None:
            continue
        if isinstance(link.margin, Unknown):
            yield NotJudged(f"{', '.join(link.margin.missing)} unknown", where)
        elif link.margin.value < wanted.value:
            message = say(
                "The picture has {} to spare; {} are wanted.",
                link.margin,
                given(wanted.value, "dB"),
            )
            yield Found(message, "Fly nearer, or use more gain on the ground.", where)
        else:
            yield Judged()
