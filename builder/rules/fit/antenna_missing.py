"""A radio without its antenna.

Checks: that each video transmitter and receiver with an antenna connector has an antenna in the
build, one a radio.
Why: a video transmitter burns its output within seconds without one; a receiver without one hears a
few metres.
Example: a video transmitter with a coaxial connector and no antenna among the parts.
Mend: add the antenna; never power a video transmitter without it.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.compute.geometry.clearances import video_antennas
from builder.diagnostics.finding import Severity, Signal
from builder.model.build import Fitted
from builder.model.kinds import Antenna, Receiver, VideoTransmitter
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.NOTICE


def _wants(fitted: Fitted) -> bool | None:
    """Whether a radio has to be given an antenna; None where nobody says."""
    antenna, coax = getattr(fitted.part, "antenna", None), getattr(fitted.part, "coax", None)
    if antenna is not None:
        return bool(antenna == "coax")
    return True if coax is not None else None


def check(case: Case) -> Iterator[Outcome]:
    video = {f.key for f in video_antennas(case.build)}
    control = {f.key for f in case.build.of_kind(Antenna)} - video
    for kind, have in ((VideoTransmitter, len(video)), (Receiver, len(control))):
        left = sum(
            case.build.parts[k].count for k in (video if kind is VideoTransmitter else control)
        )
        for fitted in case.build.of_kind(kind):
            wants = _wants(fitted)
            if wants is None:
                if have:
                    yield Judged()
                else:
                    yield NotJudged(f"antenna of {fitted.key}", fitted.shelf_where)
            elif wants and left < fitted.count:
                yield Found(
                    f"{fitted.key} has no antenna in the build.",
                    "Add its antenna; never power a video transmitter without one.",
                    fitted.where,
                )
            else:
                left -= fitted.count if wants else 0
                yield Judged()
