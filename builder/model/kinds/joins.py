"""Antennas, connectors and cables."""

from typing import ClassVar, Literal

from builder.model.kinds.onboard import Coax, Polarisation
from builder.model.measures import GaugeText
from builder.model.part import Part
from builder.model.quantities import Count, Current, FrequencySpan, Gain, Length, Text, Yes


class Antenna(Part):
    """An antenna; `active` is the length at its end that radiates."""

    KIND: ClassVar[str] = "antenna"
    GROUP: ClassVar[str] = "radio"

    gain: Gain | None = None
    polarisation: Polarisation | None = None
    length: Length | None = None
    active: Length | None = None
    bend: Length | None = None
    coax: Coax | None = None
    dc_short: Yes | None = None
    range: FrequencySpan | None = None


class Connector(Part):
    """A power connector, with or without its pigtail."""

    KIND: ClassVar[str] = "connector"
    GROUP: ClassVar[str] = "electronics"

    type: Text | None = None
    gender: Literal["plug", "socket"] | None = None
    continuous: Current | None = None
    short: Current | None = None
    contacts: Count | None = None


class Cable(Part):
    """A harness with a plug at each end: `lies` says which contact reaches which."""

    KIND: ClassVar[str] = "cable"
    GROUP: ClassVar[str] = "electronics"

    contacts: Count | None = None
    pitch: Length | None = None
    lies: Literal["straight", "reversed"] | dict[str, Text] | None = None
    gauge: GaugeText | None = None
    length: Length | None = None
    colours: tuple[Text, ...] = ()
