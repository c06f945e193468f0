"""Antennas, connectors and cables."""

from typing import ClassVar, Literal

from builder.model.kinds.onboard import Coax, Polarisation
from builder.model.source.part import Part
from builder.model.values.bounds_of_bodies import Bend, Pitch, Radiator, Ways, WireLength
from builder.model.values.bounds_of_circuits import AntennaGain, Limit, RadioSpan, WireGauge
from builder.model.values.quantities import Text, Yes


class Antenna(Part):
    """An antenna; `active` is the length at its end that radiates."""

    KIND: ClassVar[str] = "antenna"
    GROUP: ClassVar[str] = "radio"

    gain: AntennaGain | None = None  #: gain over an isotropic antenna
    polarisation: Polarisation | None = None  #: its polarisation
    length: Radiator | None = None  #: its length with cable
    active: Radiator | None = None  #: length at its end that radiates
    bend: Bend | None = None  #: tightest bend of its cable
    coax: Coax | None = None  #: its connector
    dc_short: Yes | None = None  #: yes if a meter shows a short across it
    range: RadioSpan | None = None  #: frequencies that it is made for


class Connector(Part):
    """A power connector, with or without its pigtail."""

    KIND: ClassVar[str] = "connector"
    GROUP: ClassVar[str] = "electronics"

    type: Text | None = None  #: name of its type
    gender: Literal["plug", "socket"] | None = None  #: plug or socket
    continuous: Limit | None = None  #: current that it carries for long
    short: Limit | None = None  #: current that it carries for a short time
    contacts: Ways | None = None  #: how many contacts


class Cable(Part):
    """A harness with a plug at each end: `lies` says which contact reaches which."""

    KIND: ClassVar[str] = "cable"
    GROUP: ClassVar[str] = "electronics"

    contacts: Ways | None = None  #: how many contacts
    pitch: Pitch | None = None  #: distance of its contacts
    #: which contact reaches which: straight, reversed, or by table
    lies: Literal["straight", "reversed"] | dict[str, Text] | None = None
    gauge: WireGauge | None = None  #: its copper
    length: WireLength | None = None  #: its length
    bend: Bend | None = None  #: radius of the tightest bend that it takes
    colours: tuple[Text, ...] = ()  #: colours of its wires, in the order of the contacts
