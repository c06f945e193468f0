"""A channel that the radio or its antenna is not made for.

Checks: the frequency of each link against the frequencies of its radio and of its antenna aboard.
The band of the channel is compared with the bands that the video transmitter knows. A frequency in
the words of a band (`2.4 GHz`) is compared with the frequency that is set.
Why: an antenna of another band sends nearly all power back into the transmitter, which overheats. A
channel that the radio does not know is never sent.
Example: an antenna for 5600 to 5900 MHz on a transmitter at 2440 MHz.
Mend: take the antenna for the band, or a channel that both are made for.
Source: common practice, no source
"""

import re
from collections.abc import Iterator, Sequence

from builder.compute.figures.figure import Figure
from builder.compute.geometry.clearances import video_antennas
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, Fitted
from builder.model.kinds import Antenna, Receiver, VideoTransmitter
from builder.rules.compare import clash
from builder.rules.radio._links import links
from builder.rules.rule import Case, Judged, NotJudged, Outcome
from builder.rules.say import given, say, span

SEVERITY = Severity.FAULT
SIGNAL = Signal.NOTICE
YIELDS_TO = ("radio/channel-not-allowed",)
_WIDE = assumed("radio/beyond-label")
_NEAR = assumed("radio/band-name")
_IN_WORDS = re.compile(r"(\d+(?:\.\d+)?)\s*([GM])Hz", re.IGNORECASE)
_SCALE = {"g": 1e9, "m": 1e6}


def _spans(frequency: float, fitted: Sequence[Fitted], where: Where) -> Iterator[Outcome]:
    for one in fitted:
        reach = getattr(one.part, "range", None)
        if reach is None:
            yield NotJudged(f"frequencies that {one.key} is made for", one.shelf_where)
        elif reach.low * (1 - _WIDE) <= frequency <= reach.high * (1 + _WIDE):
            yield Judged()
        else:
            text = say(
                "The link is set to {}; {} is made for {}.",
                given(frequency, "Hz"),
                one.key,
                span(reach.low, reach.high, "Hz"),
            )
            hint = "Take a channel, a radio and an antenna of one band."
            yield clash(text, hint, where, one.shelf_where.at("range"))


def _words(frequency: float, text: str | None, at: Where, where: Where) -> Iterator[Outcome]:
    said = _IN_WORDS.search(text or "")
    if said is None:
        return
    named = float(said[1]) * _SCALE[said[2].casefold()]
    if abs(named - frequency) <= _NEAR * frequency:
        yield Judged()
        return
    message = say(
        "The band is called {}; the link is set to {}.", repr(text), given(frequency, "Hz")
    )
    yield clash(message, "Correct the band or the frequency.", at, where)


def _band(build: Build) -> Iterator[Outcome]:
    use = build.source.setup.channel
    for sender in build.of_kind(VideoTransmitter) if use is not None else ():
        bands = sender.part.bands
        if use is None or not bands:
            continue
        if use.band in bands:
            yield Judged()
            continue
        text = f"The channel is of band {use.band!r}; {sender.key} knows {', '.join(bands)}."
        where = build.where("setup", "channel", "band")
        yield clash(text, "Choose a band that it knows.", where, sender.shelf_where.at("bands"))


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    video = list(video_antennas(build))
    control = [f for f in build.of_kind(Antenna) if f.key not in {v.key for v in video}]
    yield from _band(build)
    for link, where in links(case):
        if not isinstance(link.frequency, Figure):
            continue
        frequency, is_video = link.frequency.value, link.serves == "video"
        radios = build.of_kind(VideoTransmitter) if is_video else build.of_kind(Receiver)
        at = where.at("number" if is_video else "frequency")
        yield from _spans(frequency, [*radios, *(video if is_video else control)], at)
        if is_video:
            continue
        stated = build.source.setup.control
        yield from _words(frequency, stated.band if stated else None, where.at("band"), at)
        for one in build.of_kind(Receiver):
            yield from _words(frequency, one.part.band, one.shelf_where.at("band"), at)
