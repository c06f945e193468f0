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

    gain: Gain | None = None  #: gain over an isotropic antenna
    polarisation: Polarisation | None = None  #: its polarisation
    length: Length | None = None  #: its length with cable
    active: Length | None = None  #: length at its end that radiates
    bend: Length | None = None  #: tightest bend of its cable
    coax: Coax | None = None  #: its connector
    dc_short: Yes | None = None  #: yes if a meter shows a short across it
    range: FrequencySpan | None = None  #: frequencies that it is made for


class Connector(Part):
    """A power connector, with or without its pigtail."""

    KIND: ClassVar[str] = "connector"
    GROUP: ClassVar[str] = "electronics"

    type: Text | None = None  #: name of its type
    gender: Literal["plug", "socket"] | None = None  #: plug or socket
    continuous: Current | None = None  #: current that it carries for long
    short: Current | None = None  #: current that it carries for a short time
    contacts: Count | None = None  #: how many contacts


class Cable(Part):
    """A harness with a plug at each end: `lies` says which contact reaches which."""

    KIND: ClassVar[str] = "cable"
    GROUP: ClassVar[str] = "electronics"

    contacts: Count | None = None  #: how many contacts
    pitch: Length | None = None  #: distance of its contacts
    #: which contact reaches which: straight, reversed, or by table
    lies: Literal["straight", "reversed"] | dict[str, Text] | None = None
    gauge: GaugeText | None = None  #: its copper
    length: Length | None = None  #: its length
    colours: tuple[Text, ...] = ()  #: colours of its wires, in the order of the contacts
