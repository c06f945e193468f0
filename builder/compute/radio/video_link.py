"""The link of the picture: from the video transmitter to the ground."""

from builder.compute.figures.figure import MaybeFigure, Unknown, leaf
from builder.compute.radio.antennas import video_antenna
from builder.compute.radio.link import (
    GAIN_SPREAD,
    POWER_SHARE,
    SENSITIVITY_SPREAD,
    Link,
    LinkName,
    ReceivingEnd,
    SendingEnd,
    link,
    of_shelf,
    said_of_link,
    stated,
)
from builder.diagnostics.where import Where
from builder.model.build import Build, FittedAs
from builder.model.kinds import VideoTransmitter
from builder.model.source.setup_source import ChannelUse

_VIDEO = LinkName("video", "the picture")


def video_link(build: Build) -> Link | None:
    """The link of the picture; None without a channel or a transmitter."""
    use = build.source.setup.channel
    sender = next(iter(build.of_kind(VideoTransmitter)), None)
    if use is None or sender is None:
        return None
    frequency, distance = _frequency(build, use), _distance(build, use)
    ends = _aboard(build, sender, use), _on_the_ground(build, sender)
    words = said_of_link(("Channel", _channel_words(use)))
    return link(build, _VIDEO, frequency, distance, *ends, words)


def _frequency(build: Build, use: ChannelUse) -> MaybeFigure:
    key, label = f"{build.name}/radio/video-frequency", "Frequency of the video channel"
    if use.number is None:
        return Unknown(key, label, ("the number of the video channel",))
    channel, number = f"channel {use.number} of band {use.band}", str(use.number)
    found = build.site.bands.get(use.band, {}).get(number)
    if found is None:
        return Unknown(key, label, (f"{channel} in the table of site.yaml",))
    where = Where("site.yaml", ("bands", use.band, number))
    own = f"site/bands/{use.band}/{number}"
    return leaf(own, label, found.value, "Hz", basis="setting", where=where)


def _distance(build: Build, use: ChannelUse) -> MaybeFigure:
    key, where = f"{_VIDEO.key(build)}-range", build.where("setup", "channel", "range")
    missing = "the range that the picture has to reach"
    return stated(key, "Range of the picture", "m", use.range, where, missing)


def _aboard(build: Build, sender: FittedAs[VideoTransmitter], use: ChannelUse) -> SendingEnd:
    """At the aircraft's end: power of the transmitter, gain and polarisation of its antenna."""
    key, antenna = _VIDEO.key(build), video_antenna(build, sender)
    power = stated(
        f"{key}-power",
        "Power of the video transmitter",
        "W",
        use.power or sender.part.set,
        build.where("setup", "channel", "power"),
        "the power step of the video transmitter",
        share=POWER_SHARE,
    )
    gain = antenna.part.gain if antenna is not None else None
    gain_key, where = of_shelf(antenna, "gain", f"{key}-gain")
    missing = "the gain of the video antenna"
    gained = stated(gain_key, "Gain of its antenna", "dB", gain, where, missing, own=GAIN_SPREAD)
    sent = antenna.part.polarisation if antenna is not None else None
    return SendingEnd(power, gained, sent or "")


def _on_the_ground(build: Build, sender: FittedAs[VideoTransmitter]) -> ReceivingEnd:
    """At the ground's end: gain of the antenna and lowest level. What the transmitter's own shelf
    entry says of its receiver goes before the site's.
    """
    site, own = build.site.radio, sender.part.sensitivity
    of_site = Where("site.yaml", ("radio",))
    ground = stated(
        "site/video-receive-gain",
        "Gain of the antenna on the ground",
        "dB",
        site.video_receive_gain,
        of_site.at("video_receive_gain"),
        "the gain of the antenna on the ground",
        own=GAIN_SPREAD,
    )
    key: str = "site/video-sensitivity"
    where: Where | None = of_site.at("video_sensitivity")
    if own:
        key, where = of_shelf(sender, "sensitivity", key)
    least = stated(
        key,
        "Lowest level for a picture",
        "dBm",
        own or site.video_sensitivity,
        where,
        "the lowest level for a picture",
        own=SENSITIVITY_SPREAD,
    )
    return ReceivingEnd(ground, least, site.video_polarisation or "")


def _channel_words(use: ChannelUse) -> str:
    """Band and number of a channel, as they are written."""
    number = f" {use.number}" if use.number is not None else ""
    return f"{use.band}{number}"
