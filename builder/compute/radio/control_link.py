"""The link of the control: from the ground to the receiver aboard."""

from builder.compute.radio.antennas import control_antenna
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
from builder.model.build import Build
from builder.model.kinds import Receiver
from builder.model.source.setup_source import ControlLink

_CONTROL = LinkName("control", "the control link")


def control_link(build: Build) -> Link | None:
    """The link of the control; None where the setup says nothing of it."""
    use = build.source.setup.control
    if use is None:
        return None
    key, at = _CONTROL.key(build), build.where("setup", "control")
    frequency = stated(
        f"{key}-frequency",
        "Frequency of the control link",
        "Hz",
        use.frequency,
        at.at("frequency"),
        "the frequency of the control link",
    )
    distance = stated(
        f"{key}-range",
        "Range of the control link",
        "m",
        use.range,
        at.at("range"),
        "the range of the control link",
    )
    words = said_of_link(("Band", use.band), ("Rate", use.rate))
    return link(
        build, _CONTROL, frequency, distance, _on_the_ground(build, use), _aboard(build), words
    )


def _on_the_ground(build: Build, use: ControlLink) -> SendingEnd:
    """At the pilot's end: power, gain and polarisation of the control transmitter."""
    key, at = _CONTROL.key(build), build.where("setup", "control")
    power = stated(
        f"{key}-power",
        "Power of the control link",
        "W",
        use.power,
        at.at("power"),
        "the power of the control link",
        share=POWER_SHARE,
    )
    gain = stated(
        f"{key}-gain",
        "Gain of the control transmitter's antenna",
        "dB",
        use.gain,
        at.at("gain"),
        "the gain of the control transmitter's antenna",
        own=GAIN_SPREAD,
    )
    return SendingEnd(power, gain, use.polarisation or "")


def _aboard(build: Build) -> ReceivingEnd:
    """At the aircraft's end: gain and polarisation of the antenna, lowest level of the receiver."""
    antenna, receiver = control_antenna(build), next(iter(build.of_kind(Receiver)), None)
    gain = antenna.part.gain if antenna is not None else None
    least = receiver.part.sensitivity if receiver is not None else None
    received = antenna.part.polarisation if antenna is not None else None
    key, where = of_shelf(antenna, "gain", f"{build.name}/radio/receiver-gain")
    gained = stated(
        key,
        "Gain of the receiver's antenna",
        "dB",
        gain,
        where,
        "the gain of the receiver's antenna",
        own=GAIN_SPREAD,
    )
    key, where = of_shelf(receiver, "sensitivity", f"{build.name}/radio/receiver-sensitivity")
    floor = stated(
        key,
        "Lowest level for the receiver",
        "dBm",
        least,
        where,
        "the lowest level for the receiver",
        own=SENSITIVITY_SPREAD,
    )
    return ReceivingEnd(gained, floor, received or "")
