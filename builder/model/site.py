"""site.yaml: who publishes, and the settings that every build is checked with."""

from typing import Literal

from pydantic import Field

from builder.model.values.base import Frozen
from builder.model.values.bounds_of_bodies import (
    Age,
    AirTemperature,
    Altitude,
    CalibrationShare,
    Dated,
    Dwell,
    FlyingSpeed,
    LegalMass,
    MoneyAmount,
    MoneyRate,
    MostOf,
    ScaleStep,
    SeaPressure,
    SpreadOfMerit,
    SpreadShare,
)
from builder.model.values.bounds_of_circuits import (
    AntennaGain,
    LinkMargin,
    RadioFrequency,
    Sensitivity,
    SentPower,
)
from builder.model.values.quantities import (
    Address,
    Text,
    Yes,
)


class ExchangeRate(Frozen):
    """One unit of `from` is `rate` units of `to`, on a day."""

    from_: Text = Field(alias="from")  #: ISO 4217 code that is changed
    to: Text  #: ISO 4217 code that it becomes
    rate: MoneyRate  #: how many of `to` one of `from` gives
    dated: Dated  #: the day of the rate
    source: Text | None = None  #: who said so


class Spreads(Frozen):
    """One standard deviation, as a share, assumed where the source states none."""

    maker_mass: SpreadShare | None = None  #: spread of a maker's mass
    #: spread of what an aircraft weighs beyond its listed parts, as a share of them
    beyond_parts: SpreadShare | None = None
    #: spread of the share by which a scale reads wrong, in all its readings alike
    scale_calibration: CalibrationShare | None = None
    pack_scatter: SpreadShare | None = None  #: spread from one flight battery to the next
    piece_scatter: SpreadShare | None = None  #: spread from piece to piece
    estimate: SpreadShare | None = None  #: spread of a guess
    maker_electrical: SpreadShare | None = None  #: spread of a maker's electrical figure
    capacity: SpreadShare | None = None  #: spread of a battery's capacity
    bench_table: SpreadShare | None = None  #: spread of a bench table
    wire_length: SpreadShare | None = None  #: spread of a wire's length
    drive_efficiency: SpreadShare | None = None  #: spread of the efficiency of motor and controller
    figure_of_merit: SpreadOfMerit | None = None  #: spread of the figure of merit


class Scale(Frozen):
    """A scale by its name: its step, how well it repeats, and the error common to its readings."""

    step: ScaleStep | None = None  #: its resolution
    repeatability: ScaleStep | None = None  #: spread of one reading against the next
    calibration: CalibrationShare | None = None  #: spread of the share by which it reads wrong


class MassLimit(Frozen):
    """A mass that a rule of the air looks at. Strict: the mass must be less; else it may be equal."""

    name: Text  #: what people call the limit
    mass: LegalMass  #: the limit
    strict: Yes = True  #: yes if the weight must be less; no if it may be equal
    source: Text | None = None  #: the rule, with its paragraph
    dated: Dated | None = None  #: the day on which it was looked up
    note: Text | None = None  #: a remark
    applies_to: Literal["all-up", "dry"] = "all-up"  #: which weight it looks at
    speed: FlyingSpeed | None = None  #: an aircraft below the limit has to be slower than this


class Allowed(Frozen):
    """A range of frequencies in which transmitting is allowed where it is flown, and up to which
    e.i.r.p.
    """

    from_: RadioFrequency = Field(alias="from")  #: lowest frequency
    to: RadioFrequency  #: highest frequency
    eirp: SentPower | None = None  #: highest equivalent isotropic radiated power
    serves: Literal["video", "control", "both"] = "both"  #: which link it is for
    source: Text | None = None  #: the rule, with its paragraph
    dated: Dated | None = None  #: the day on which it was looked up
    note: Text | None = None  #: a remark


class FlyingPlace(Frozen):
    """Where it is flown. `pressure` is reduced to sea level, as weather reports give it."""

    name: Text | None = None  #: name of the place; not its coordinates
    altitude: Altitude | None = None  #: height of the field above the sea
    temperature: AirTemperature | None = None  #: how warm the air is
    pressure: SeaPressure | None = None  #: pressure of the air at sea level


class Radio(Frozen):
    """What is at the other end of the links."""

    video_receive_gain: AntennaGain | None = None  #: gain of the antenna on the ground
    video_polarisation: Text | None = None  #: its polarisation
    video_sensitivity: Sensitivity | None = None  #: weakest signal that still gives a picture
    fade_margin: LinkMargin | None = None  #: what should be to spare


class AtMost(Frozen):
    """How much the workspace may hold and ask for, where it is not the default. Reading takes these
    numbers as well.
    """

    file_kilobytes: MostOf | None = None  #: size of a source file, kB
    values: MostOf | None = None  #: values in a file
    depth: MostOf | None = None  #: levels of nesting in a file
    text: MostOf | None = None  #: characters of a text
    builds: MostOf | None = None  #: builds of a workspace
    bases: MostOf | None = None  #: builds in a chain of based_on
    shelf_files: MostOf | None = None  #: files of the shelf
    shelf_parts: MostOf | None = None  #: parts on the shelf
    parts: MostOf | None = None  #: parts of a build, by key
    pieces: MostOf | None = None  #: pieces of all parts of a build
    wires: MostOf | None = None  #: wires of a build
    entries: MostOf | None = None  #: entries of any other list of a build or a part
    pictures: MostOf | None = None  #: pictures of a build
    picture_kilobytes: MostOf | None = None  #: size of a picture's file, kB
    #: pixels of a picture, millions; twice as many of a JPEG
    picture_megapixels: MostOf | None = None
    drawing_kilobytes: MostOf | None = None  #: size of an SVG picture, kB
    drawing_shapes: MostOf | None = None  #: elements of an SVG picture
    #: elements that an SVG picture draws, with all that it draws again
    drawing_drawn: MostOf | None = None
    chapters: MostOf | None = None  #: chapters of a guide
    chapter_kilobytes: MostOf | None = None  #: size of a chapter's file, kB
    files: MostOf | None = None  #: files that a build gives along
    given_kilobytes: MostOf | None = None  #: size of a file that is given along, kB
    paper_kilobytes: MostOf | None = None  #: HTML that one PDF is made from, kB
    seconds: MostOf | None = None  #: seconds for the pages, the PDF or one picture of a build
    worker_megabytes: MostOf | None = None  #: address space of one worker process, MB


class ShownUnits(Frozen):
    """In which units paper is printed, and pages are shown to who has not chosen. What is published is
    written in metric; scripts show it otherwise. Sources and data stay as they are.
    """

    weight: Literal["g", "oz"] = "g"  #: grams, or ounces (avoirdupois)
    length: Literal["mm", "in"] = "mm"  #: millimetres and metres, or inches and feet
    temperature: Literal["degC", "degF"] = "degC"  #: degrees Celsius, or Fahrenheit

    @property
    def choices(self) -> str:
        """The ones that are not metric, in a row."""
        metric = ("g", "mm", "degC")
        shown = (self.weight, self.length, self.temperature)
        return " ".join(unit for unit in shown if unit not in metric)


class Site(Frozen):
    """All settings of a workspace."""

    title: Text  #: name of the site
    author: Text | None = None  #: who publishes
    address: Address | None = None  #: address of the published site, with https
    about: Text | None = None  #: a sentence on the front page
    disclosure: Text | None = None  #: the line about links that earn money
    invented: Yes = False  #: yes if all of it is invented
    licence: Text | None = None  #: licence of the sheets and their sources
    give_source: Yes = True  #: no if no sheet comes with its source to start from
    language: Text = "en"  #: language of the pages (BCP 47)
    paper: Literal["A4", "Letter"] = "A4"  #: paper of the bench sheet
    #: units of what is printed, and of pages for who has not chosen
    units: ShownUnits = ShownUnits()
    currency: Text = "EUR"  #: ISO 4217 code that totals are given in
    rates: tuple[ExchangeRate, ...] = ()  #: exchange rates
    as_of: Dated | None = None  #: the day from which ages count
    spreads: Spreads = Spreads()  #: spreads assumed where a source states none
    scales: dict[str, Scale] = Field(default_factory=dict)  #: scales by name
    limits: tuple[MassLimit, ...] = ()  #: masses that the law looks at where it is flown
    budget: MoneyAmount | None = None  #: what a build may cost
    #: the workspace's own channel table: band, channel number, middle frequency
    bands: dict[str, dict[str, RadioFrequency]] = Field(
        default_factory=dict,
        description="The workspace's own channel table: band, channel number, middle frequency.",
    )
    allowed: tuple[Allowed, ...] = ()  #: ranges in which transmitting is allowed where it is flown
    place: FlyingPlace = FlyingPlace()  #: where it is flown
    radio: Radio = Radio()  #: what is at the other end of the links
    price_age: Age | None = None  #: age from which a price counts as old
    compare: tuple[tuple[Text, ...], ...] = ()  #: pairs of builds that are compared
    #: how long a board may be on at the bench without moving air
    dwell_without_air: Dwell | None = None
    at_most: AtMost = AtMost()  #: limits that are not the default; no build can change them
