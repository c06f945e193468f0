"""Radio of a build: the channel's frequency, what is allowed there, what is radiated, polarisation,
loss and margin.
"""

from dataclasses import dataclass

from builder.compute.figures.figure import (
    Figure,
    MaybeFigure,
    Unknown,
    apply,
    constant,
    formula,
    leaf,
)
from builder.compute.formulas.radio import (
    free_space_loss,
    link_margin,
    polarisation_loss,
    power_level,
    radiated_power,
    received_level,
)
from builder.compute.radio.channels import ranges_for
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, FittedAs
from builder.model.kinds import Antenna, Receiver, VideoTransmitter
from builder.model.site import Allowed
from builder.model.source.setup_source import ChannelUse

AXIS_RATIO = {"linear": 0.0, "right-hand": 1.0, "left-hand": -1.0}
_GAIN_SPREAD = assumed("radio/gain-spread")
_SENSITIVITY_SPREAD = assumed("radio/sensitivity-spread")
_POWER_SHARE = assumed("radio/power-spread")


@dataclass(frozen=True, eq=False)
class Link:
    """One link. `allowed` is the range that holds its frequency, or None; `ranges` all ranges for
    what it serves. `gain_there` and `least` are of the end that receives; `words` what else is
    written of it, by what it is called.
    """

    serves: str
    frequency: MaybeFigure
    power: MaybeFigure
    gain: MaybeFigure
    radiated: MaybeFigure
    sent: str
    received: str
    polarisation: MaybeFigure
    distance: MaybeFigure
    path_loss: MaybeFigure
    margin: MaybeFigure
    allowed: Allowed | None
    ranges: tuple[Allowed, ...]
    gain_there: MaybeFigure
    least: MaybeFigure
    words: tuple[tuple[str, str], ...]


@dataclass(frozen=True, eq=False)
class RadioLinks:
    """The links that the build's setup speaks of."""

    video: Link | None
    control: Link | None


def _within(ranges: tuple[Allowed, ...], frequency: MaybeFigure) -> Allowed | None:
    if not isinstance(frequency, Figure):
        return None
    return next((a for a in ranges if a.from_.value <= frequency.value <= a.to.value), None)


def _video_antenna(
    build: Build, sender: FittedAs[VideoTransmitter] | None
) -> FittedAs[Antenna] | None:
    """The antenna on the video transmitter: by its range or its name in the build, where there are
    several.
    """
    found = build.of_kind(Antenna)
    named = [f for f in found if "video" in f.key]
    if named:
        return named[0]
    only = found[0] if len(found) == 1 and sender is not None else None
    coax, other = (
        getattr(only and only.part, "coax", None),
        getattr(sender and sender.part, "coax", None),
    )
    return None if coax is not None and other is not None and coax.type != other.type else only


def _frequency(build: Build) -> MaybeFigure:
    use = build.source.setup.channel
    key, label = f"{build.name}/radio/video-frequency", "Frequency of the video channel"
    if use is None or use.number is None:
        return Unknown(key, label, ("the number of the video channel",))
    channels = build.site.bands.get(use.band, {})
    found = channels.get(str(use.number))
    if found is None:
        return Unknown(
            key, label, (f"channel {use.number} of band {use.band} in the table of site.yaml",)
        )
    where = Where("site.yaml", ("bands", use.band, str(use.number)))
    return leaf(
        f"site/bands/{use.band}/{use.number}",
        label,
        found.value,
        "Hz",
        basis="setting",
        where=where,
    )


def _given(
    key: str,
    label: str,
    value: float | None,
    unit: str,
    own: float,
    where: Where | None,
    missing: str,
) -> MaybeFigure:
    if value is None:
        return Unknown(key, label, (missing,))
    return leaf(key, label, value, unit, own=own, basis="setting", where=where)


def _polarisation(build: Build, serves: str, sent: str, received: str) -> MaybeFigure:
    key, label = f"{build.name}/radio/{serves}-polarisation", "Loss by polarisation"
    if sent not in AXIS_RATIO or received not in AXIS_RATIO:
        return Unknown(key, label, ("the polarisation of both ends",))
    ends = (
        constant(f"{key}/sent", f"Axis ratio sent, {sent}", AXIS_RATIO[sent], "1"),
        constant(f"{key}/received", f"Axis ratio received, {received}", AXIS_RATIO[received], "1"),
        constant(f"{key}/turn", "Angle between the long axes", 0.0, "rad"),
    )
    return apply(key, label, formula(polarisation_loss), *ends)


def _video(build: Build) -> Link | None:
    use = build.source.setup.channel
    sender = next(iter(build.of_kind(VideoTransmitter)), None)
    if use is None or sender is None or not isinstance(sender.part, VideoTransmitter):
        return None
    key, site = f"{build.name}/radio/video", build.site.radio
    antenna = _video_antenna(build, sender)
    part = antenna.part if antenna is not None and isinstance(antenna.part, Antenna) else None
    watts = use.power or sender.part.set
    gain = part.gain.value if part is not None and part.gain is not None else None
    frequency = _frequency(build)
    sent_with = watts.value if watts else None
    unsure = _POWER_SHARE * (sent_with or 0.0)
    power = _given(
        f"{key}-power",
        "Power of the video transmitter",
        sent_with,
        "W",
        unsure,
        build.where("setup", "channel", "power"),
        "the power step of the video transmitter",
    )
    gained = _given(
        f"shelf/{antenna.shelf}/gain" if antenna else f"{key}-gain",
        "Gain of its antenna",
        gain,
        "dB",
        _GAIN_SPREAD,
        antenna.shelf_where.at("gain") if antenna else None,
        "the gain of the video antenna",
    )
    feeder = constant(
        f"{key}-feeder",
        "Loss of its cable",
        0.0,
        "dB",
        "taken as none: the worse case for the limit",
    )
    radiated = apply(
        f"{key}-eirp", "Radiated power (e.i.r.p.)", formula(radiated_power), power, feeder, gained
    )
    sent, received = (
        (part.polarisation if part is not None else None) or "",
        site.video_polarisation or "",
    )
    turned = _polarisation(build, "video", sent, received)
    distance = _given(
        f"{key}-range",
        "Range of the picture",
        use.range.value if use.range else None,
        "m",
        0.0,
        build.where("setup", "channel", "range"),
        "the range that the picture has to reach",
    )
    loss = apply(
        f"{key}-path",
        "Loss of the path in free space",
        formula(free_space_loss),
        frequency,
        distance,
    )
    ranges = ranges_for(build, "video")
    ground, floor = _on_the_ground(build, sender)
    margin = _to_spare(key, "the picture", radiated, loss, turned, ground, floor)
    allowed = _within(ranges, frequency)
    return Link(
        "video",
        frequency,
        power,
        gained,
        radiated,
        sent,
        received,
        turned,
        distance,
        loss,
        margin,
        allowed,
        ranges,
        ground,
        floor,
        _said(("Channel", _channel_words(use))),
    )


def _channel_words(use: ChannelUse) -> str:
    """Band and number of a channel, as they are written."""
    number = f" {use.number}" if use.number is not None else ""
    return f"{use.band}{number}"


def _said(*pairs: tuple[str, str | None]) -> tuple[tuple[str, str], ...]:
    """What is written of a link in words; what is not written is left out."""
    return tuple((name, text) for name, text in pairs if text)


def _on_the_ground(
    build: Build, sender: FittedAs[VideoTransmitter]
) -> tuple[MaybeFigure, MaybeFigure]:
    """At the ground's end of the picture: gain of the antenna and lowest level. What the
    transmitter's own shelf entry says of its receiver goes before the site's.
    """
    site, own = build.site.radio, sender.part.sensitivity
    gain, least = site.video_receive_gain, own or site.video_sensitivity
    ground = _given(
        "site/video-receive-gain",
        "Gain of the antenna on the ground",
        gain.value if gain else None,
        "dB",
        _GAIN_SPREAD,
        Where("site.yaml", ("radio", "video_receive_gain")),
        "the gain of the antenna on the ground",
    )
    of_site = Where("site.yaml", ("radio", "video_sensitivity"))
    floor = _given(
        f"shelf/{sender.shelf}/sensitivity" if own else "site/video-sensitivity",
        "Lowest level for a picture",
        least.value if least else None,
        "dBm",
        _SENSITIVITY_SPREAD,
        sender.shelf_where.at("sensitivity") if own else of_site,
        "the lowest level for a picture",
    )
    return ground, floor


def _to_spare(
    key: str,
    what: str,
    radiated: MaybeFigure,
    loss: MaybeFigure,
    turned: MaybeFigure,
    gain: MaybeFigure,
    floor: MaybeFigure,
) -> MaybeFigure:
    level = apply(f"{key}-level", "Radiated level", formula(power_level), radiated)
    got = apply(
        f"{key}-received",
        "Level at the receiver",
        formula(received_level),
        level,
        loss,
        turned,
        gain,
    )
    return apply(f"{key}-margin", f"Margin of {what}", formula(link_margin), got, floor)


def _control_antenna(build: Build) -> FittedAs[Antenna] | None:
    """The antenna on the receiver of the control link: the one antenna that is not the video
    transmitter's.
    """
    video = _video_antenna(build, next(iter(build.of_kind(VideoTransmitter)), None))
    others = [f for f in build.of_kind(Antenna) if video is None or f.key != video.key]
    named = [f for f in others if "control" in f.key or "receiver" in f.key or "rx" in f.key]
    if named:
        return named[0]
    return others[0] if len(others) == 1 else None


def _aboard(build: Build) -> tuple[str, MaybeFigure, MaybeFigure]:
    """At the aircraft's end of the control link: polarisation, gain of the antenna, lowest level of
    the receiver.
    """
    antenna, receiver = _control_antenna(build), next(iter(build.of_kind(Receiver)), None)
    gain = antenna.part.gain if antenna is not None else None
    least = receiver.part.sensitivity if receiver is not None else None
    gained = _given(
        f"shelf/{antenna.shelf}/gain" if antenna else f"{build.name}/radio/receiver-gain",
        "Gain of the receiver's antenna",
        gain.value if gain else None,
        "dB",
        _GAIN_SPREAD,
        antenna.shelf_where.at("gain") if antenna else None,
        "the gain of the receiver's antenna",
    )
    floor = _given(
        f"shelf/{receiver.shelf}/sensitivity"
        if receiver
        else f"{build.name}/radio/receiver-sensitivity",
        "Lowest level for the receiver",
        least.value if least else None,
        "dBm",
        _SENSITIVITY_SPREAD,
        receiver.shelf_where.at("sensitivity") if receiver else None,
        "the lowest level for the receiver",
    )
    return (antenna.part.polarisation or "") if antenna is not None else "", gained, floor


def _control(build: Build) -> Link | None:
    use = build.source.setup.control
    if use is None:
        return None
    key, at = f"{build.name}/radio/control", build.where("setup", "control")
    frequency = _given(
        f"{key}-frequency",
        "Frequency of the control link",
        use.frequency.value if use.frequency else None,
        "Hz",
        0.0,
        at.at("frequency"),
        "the frequency of the control link",
    )
    power = _given(
        f"{key}-power",
        "Power of the control link",
        use.power.value if use.power else None,
        "W",
        _POWER_SHARE * use.power.value if use.power else 0.0,
        at.at("power"),
        "the power of the control link",
    )
    gain = _given(
        f"{key}-gain",
        "Gain of the control transmitter's antenna",
        use.gain.value if use.gain else None,
        "dB",
        _GAIN_SPREAD,
        at.at("gain"),
        "the gain of the control transmitter's antenna",
    )
    distance = _given(
        f"{key}-range",
        "Range of the control link",
        use.range.value if use.range else None,
        "m",
        0.0,
        at.at("range"),
        "the range of the control link",
    )
    feeder = constant(
        f"{key}-feeder",
        "Loss of its cable",
        0.0,
        "dB",
        "taken as none: the worse case for the limit",
    )
    radiated = apply(
        f"{key}-eirp", "Radiated power (e.i.r.p.)", formula(radiated_power), power, feeder, gain
    )
    loss = apply(
        f"{key}-path",
        "Loss of the path in free space",
        formula(free_space_loss),
        frequency,
        distance,
    )
    received, gained, floor = _aboard(build)
    sent = use.polarisation or ""
    turned = _polarisation(build, "control", sent, received)
    margin = _to_spare(key, "the control link", radiated, loss, turned, gained, floor)
    ranges = ranges_for(build, "control")
    return Link(
        "control",
        frequency,
        power,
        gain,
        radiated,
        sent,
        received,
        turned,
        distance,
        loss,
        margin,
        _within(ranges, frequency),
        ranges,
        gained,
        floor,
        _said(("Band", use.band), ("Rate", use.rate)),
    )


def radio(build: Build) -> RadioLinks:
    """The build's links. What leaves an antenna of unknown gain is unknown, never guessed."""
    return RadioLinks(_video(build), _control(build))
