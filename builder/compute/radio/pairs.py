"""Radios that work at once, in pairs: who sends beside whom, at which frequency, and what is heard
there.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from builder.compute.figures.figure import MaybeFigure, Unknown
from builder.compute.radio.links import RadioLinks
from builder.diagnostics.where import Where
from builder.load.assumed import assumed, assumed_list
from builder.model.build import Build, Fitted
from builder.model.kinds import Receiver, SatelliteReceiver, VideoTransmitter

_SATELLITES = assumed_list("radio/satellite-band")
_HIGHEST = int(assumed("radio/harmonics"))
_WIDE = assumed("radio/beyond-label")


@dataclass(frozen=True)
class Sender:
    """What sends, in words; the part and the frequency; where that is written."""

    words: str
    part: str
    frequency: MaybeFigure
    where: Where


@dataclass(frozen=True)
class Listener:
    """What listens, in words; from which to which frequency in Hz, None where that is not known."""

    words: str
    part: str
    span: tuple[float, float] | None
    where: Where


@dataclass(frozen=True)
class RadioPair:
    """A sender beside a listener, aboard or in the pilot's hands."""

    sender: Sender
    listener: Listener
    is_satellite: bool = False

    @property
    def heard(self) -> int | None:
        """The lowest harmonic of the sender that the listener hears, 1 for the frequency itself;
        None where it hears none. Both frequencies have to be known.
        """
        sent, span = self.sender.frequency, self.listener.span
        if isinstance(sent, Unknown) or span is None:
            return None
        orders = range(1, _HIGHEST + 1)
        return next((n for n in orders if span[0] <= n * sent.value <= span[1]), None)


def _around(frequency: MaybeFigure) -> tuple[float, float] | None:
    if isinstance(frequency, Unknown):
        return None
    return frequency.value * (1.0 - _WIDE), frequency.value * (1.0 + _WIDE)


def _control_hears(build: Build, links: RadioLinks) -> Iterator[Listener]:
    for fitted in build.of_kind(Receiver):
        span = fitted.part.range
        reach = (span.low, span.high) if span is not None else None
        if reach is None and links.control is not None:
            reach = _around(links.control.frequency)
        yield Listener(fitted.key, fitted.key, reach, fitted.where)


def _satellites(build: Build) -> Iterator[Listener]:
    low, high = _SATELLITES
    for fitted in build.of_kind(SatelliteReceiver):
        yield Listener(fitted.key, fitted.key, (low, high), fitted.where)


def _picture(build: Build, links: RadioLinks) -> Iterator[Sender]:
    if links.video is None:
        return
    where = build.where("setup", "channel")
    for fitted in build.of_kind(VideoTransmitter):
        yield Sender(f"the picture of {fitted.key}", fitted.key, links.video.frequency, where)


def _answers(fitted: Fitted) -> bool:
    part = fitted.part
    return isinstance(part, Receiver) and part.telemetry is not None and not part.one_way


def _telemetry(build: Build, links: RadioLinks) -> Iterator[Sender]:
    if links.control is None:
        return
    where = build.where("setup", "control")
    for fitted in build.of_kind(Receiver):
        if _answers(fitted):
            words = f"the telemetry of {fitted.key}"
            yield Sender(words, fitted.key, links.control.frequency, where)


def radio_pairs(build: Build, links: RadioLinks) -> tuple[RadioPair, ...]:
    """Each sender with each listener beside it. Picture and control on one band are two links of
    their own, so a control receiver is heard of by harmonics alone.
    """
    aboard = [RadioPair(s, r) for s in _picture(build, links) for r in _control_hears(build, links)]
    for sender in (*_picture(build, links), *_telemetry(build, links)):
        aboard += [RadioPair(sender, r, is_satellite=True) for r in _satellites(build)]
    if links.control is None or links.video is None:
        return tuple(aboard)
    at = build.where("setup", "control")
    hand = Sender("the hand transmitter", "", links.control.frequency, at)
    eyes = _around(links.video.frequency)
    watching = Listener("the picture receiver on the ground", "", eyes, build.where("setup"))
    return (*aboard, RadioPair(hand, watching))
