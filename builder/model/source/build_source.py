"""A build as a person writes it: build.yaml, field by field."""

from typing import Any, ClassVar, Literal

from pydantic import Field, field_validator

from builder.model.source.electrical import Names
from builder.model.source.part import Price
from builder.model.source.setup_source import Setup
from builder.model.values.base import Frozen, Short, SourcedMass
from builder.model.values.bounds_of_bodies import (
    Airborne,
    AirTemperature,
    ChangeOfMass,
    Cycles,
    Dated,
    InSeries,
    MoneyAmount,
    OnGround,
    PackTemperature,
    Parallel,
    PartMass,
    Pieces,
    PiecesOrNone,
    ScaleStep,
    Seat,
    Thickness,
    ThreadDepth,
    Turn,
    WeighedMass,
    WireLength,
)
from builder.model.values.bounds_of_circuits import (
    FullCell,
    LandingCell,
    Limit,
    PackVoltage,
    SeriesCells,
    UsedCharge,
    WireGauge,
)
from builder.model.values.mistaken import wrong
from builder.model.values.picture_places import PicturePlace
from builder.model.values.quantities import (
    Address,
    AnyAmount,
    GivenFileName,
    PictureName,
    Text,
    Yes,
)

Status = Literal["planned", "on the bench", "flying", "retired"]
Doing = Literal["fit", "tin", "solder", "cover", "mount", "plug", "check"]


class PartUse(Short):
    """A shelf part in its place in the build. `at`, `face` and `yaw` say where it sits."""

    SHORT: ClassVar[str] = "use"

    use: Text  #: name of the part on the shelf
    count: Pieces = 1  #: how many are fitted
    spares: PiecesOrNone = 0  #: how many lie in the box
    at: Seat | None = None  #: where it sits: forward, left and up from the middle of the frame
    each_at: tuple[Seat, ...] = ()  #: where each piece sits, if there is more than one
    #: of a balance lead: the battery connector of the same battery, one a piece, as `pigtail.2`
    same_battery: Names = ()
    face: Literal["up", "down"] = "up"  #: the way its top looks
    yaw: Turn | None = None  #: how far it is turned, clockwise, seen from above
    note: Text | None = None  #: a remark shown beside it
    price: Price | None = None  #: what this builder paid, in place of the shelf's price
    alternatives: Names = ()  #: shelf parts that could stand in its place in this build
    set: Text | None = None  #: the power step or mode that is used
    owned: Yes | None = None  #: yes if it was at hand and need not be bought
    each_weighed: tuple[
        PartMass, ...
    ] = ()  #: what single pieces of this build weighed, one reading a piece


class Charging(Frozen):
    """What the charger is set to for a battery."""

    #: the kind of cells that it is set to
    chemistry: Literal["lithium-polymer", "lithium-ion", "high-voltage lithium-polymer"] | None = (
        None
    )
    cells: SeriesCells | None = None  #: cells in series that it is set to
    full: FullCell | None = None  #: volts of a cell at which it ends
    current: Limit | None = None  #: charging current
    together: Parallel = 1  #: how many batteries are charged at once, in parallel on one board
    beside: Names = ()  #: other batteries of the build that are charged on the same board at once
    board: Text | None = None  #: the board that joins them: a part of the build
    each_volts: tuple[PackVoltage, ...] = ()  #: volts of each battery before they went on the board
    #: yes if each is unplugged from the aircraft and from the others before it goes on the board
    apart: Yes | None = None


class PackUse(Short):
    """A flight battery that the build flies on; `series` and `parallel` batteries of it are joined."""

    SHORT: ClassVar[str] = "use"

    use: Text  #: name of the battery on the shelf
    count: PiecesOrNone = 1  #: how many the builder flies
    series: InSeries = 1  #: how many are joined in series, minus of one to plus of the next
    parallel: Parallel = 1  #: how many are joined in parallel; with `series`, how many such rows
    beside: Names = ()  #: of these, batteries of another kind on the shelf
    #: leads outside the aircraft that join them, as a Y-lead: parts of the build
    through: Names = ()
    each_volts: tuple[PackVoltage, ...] = ()  #: volts of each battery before they were joined
    at: Seat | None = None  #: where it sits: forward, left and up from the middle of the frame
    each_at: tuple[Seat, ...] = ()  #: where each of those that are joined sits, in place of `at`
    temperature: PackTemperature | None = None  #: how warm it is when the flight begins
    landing: LandingCell | None = None  #: volts a cell under load at which the flight ends
    charging: Charging | None = None  #: what the charger is set to
    note: Text | None = None  #: a remark shown beside it


class Weighed(Frozen):
    """A reading of a scale: dry, or flying with the battery named. Dry is without battery and payload,
    flying with both.

    Some parts alone may be weighed too (`parts`), and an aircraft that is not complete yet
    (`without`).
    """

    #: what lay on the scale: dry (no battery, no payload), the name of a battery (battery and
    #: payload on), or parts
    what: Text
    mass: WeighedMass  #: what the scale showed
    scale: ScaleStep | None = None  #: resolution of the scale
    scale_name: Text | None = None  #: which scale; readings of one scale share its error
    parts: Names = ()  #: with what: parts, those that lay there, all their pieces; batteries too
    without: Names = ()  #: with what: dry, the parts that were not on it yet
    date: Dated | None = None  #: the day
    note: Text | None = None  #: a remark


class Wire(Frozen):
    """A wire between two contacts; `lead: fitted` is one that a maker fitted to the part named in
    `from`.
    """

    from_: Text = Field(alias="from")  #: where it starts: part.pad
    to: Text  #: where it ends: part.pad
    colour: Text | None = None  #: colour of its sleeve
    gauge: WireGauge | None = None  #: its copper
    length: WireLength | None = None  #: its length as cut
    route: WireLength | None = None  #: the way that it takes, if longer than the straight line
    #: fitted, if it is a lead that the maker fitted to the part in `from`
    lead: Literal["fitted"] | None = None
    trim_to: WireLength | None = None  #: the length to which a fitted lead is cut
    twisted: Yes = False  #: yes if it is twisted with its fellow
    note: Text | None = None  #: a remark


class Plug(Frozen):
    """Two sockets joined by a cable; which contact reaches which is derived from how it lies."""

    from_: Text = Field(alias="from")  #: one socket: part.socket
    to: Text  #: the other: part.socket
    #: how the cable lies, or contact by contact
    cable: Literal["straight", "reversed"] | dict[str, Text] | None = None
    use: Text | None = None  #: the cable on the shelf
    note: Text | None = None  #: a remark


class Layer(Frozen):
    """One layer that a screw passes through."""

    what: Text  #: what the screw passes through
    thick: Thickness  #: how thick it is


class Screw(Frozen):
    """Screws of one place: what they pass through, what they grip, what lies behind their end."""

    place: Text  #: name of the place
    use: Text  #: the screw on the shelf
    count: Pieces  #: how many of them
    through: tuple[Layer, ...] = ()  #: layers from the head on
    into: Text | None = None  #: what it grips
    depth: ThreadDepth | None = None  #: depth of thread there
    #: what its end points at: pack, pack bay (the battery's), board, wire, nothing, a part or battery of this build, or 'other: …'
    behind: Text | None = None
    lock: Yes | None = None  #: yes if thread lock goes on it, no if none does
    washer: Thickness | None = None  #: thickness of washers under the head
    note: Text | None = None  #: a remark


class BuildStep(Frozen):
    """A step of the builder's own, placed by `before` and `after`."""

    id: Text  #: its name, so that others can be placed by it
    do: Doing = "fit"  #: what kind of work it is
    text: Text  #: what is done
    before: Names = ()  #: steps that it has to come before
    after: Names = ()  #: steps that it has to come after
    #: the part that it is about: fitting, mounting and covering come once that part sits, unless `before` says otherwise
    part: Text | None = None
    photo: PictureName | None = None  #: a picture in the build's folder
    alt: Text | None = None  #: what the picture shows, in words
    side: Text | None = None  #: the side seen in the picture
    covers: Names = ()  #: joints that cannot be reached after it
    #: what it coats: a part, a contact or socket of it, or a battery. Or one of usb, button, lens,
    #: sensor, socket, connector, antenna, or 'other: ' and what it is
    coats: Names = ()
    expect: Text | None = None  #: what a check should show
    reason: Text | None = None  #: why it is done then


class Flight(Frozen):
    """One flight of the log. `grounded` is time with motors idle, `used` what the charger put back;
    the wind stands in `note`.
    """

    date: Dated  #: the day
    pack: Text  #: the battery, as the build names it
    airborne: Airborne  #: time in the air
    grounded: OnGround | None = None  #: time with power on and motors still
    air: AirTemperature | None = None  #: how warm the air was
    pack_temperature: PackTemperature | None = None  #: how warm the battery was at the start
    used: UsedCharge | None = None  #: what the charger put back
    #: yes if it was flown until the alarm, and neither charge nor volts were noted
    until_alarm: Yes = False
    landed_at: PackVoltage | None = None  #: volts of the battery as it lands, still in the air
    style: Text | None = None  #: how it was flown, in a word
    propeller: Text | None = None  #: the propeller on the shelf, if not the build's own
    note: Text | None = None  #: a remark, such as the wind
    leave_out: Yes = False  #: yes if predictions should not learn from it


class Change(Frozen):
    """A line of the change log."""

    date: Dated  #: the day
    text: Text  #: what changed
    chapters: Names = ()  #: chapters of the guide that it changed
    #: figures as they were before, by their key: `mass/all-up-small: 231.0 g`
    was: dict[str, AnyAmount] = Field(default_factory=dict)
    added: Names = ()  #: parts of the build that were fitted that day
    mass: ChangeOfMass | None = None  #: what it did to the weight, such as +1.2 g


class Question(Frozen):
    """What strangers ask, and the answer."""

    ask: Text  #: what people ask
    answer: Text  #: the answer
    id: Text | None = None  #: its anchor on the page, where the words should not decide


class Incident(Frozen):
    """What broke: date, what, replaced parts, what it cost and what it did to the mass."""

    date: Dated  #: the day
    what: Text  #: what broke and how
    replaced: Names = ()  #: parts that were replaced, as the build names them
    cost: MoneyAmount | None = None  #: what it cost
    mass: ChangeOfMass | None = None  #: what it did to the weight, such as +0.6 g
    note: Text | None = None  #: a remark


class Maintenance(Frozen):
    """What was done to keep it flying, with what it did to the mass."""

    date: Dated  #: the day
    what: Text  #: what was done
    replaced: Names = ()  #: parts that were replaced, as the build names them
    flights: Cycles | None = None  #: after how many flights
    cost: MoneyAmount | None = None  #: what it cost
    mass: ChangeOfMass | None = None  #: what it did to the weight, such as -0.2 g
    note: Text | None = None  #: a remark


class AsBuilt(Frozen):
    """What came back from the bench: a deviation or a reading."""

    date: Dated  #: the day
    step: Text | None = None  #: the step or wire that it is about
    #: where it was read: a contact (controller.5V1), or a motor (motor.3) whose turn was seen
    at: Text | None = None
    text: Text | None = None  #: what was done otherwise
    measured: Text | None = None  #: what was read


class Chapter(Frozen):
    """A time stamp of a recording that goes with the build."""

    at: Text  #: time in the recording, minutes:seconds
    text: Text  #: what happens there
    steps: Names = ()  #: steps of the work that are seen there; each leads to it


class GivenFile(Frozen):
    """A file that the build gives along: settings, a shape to print."""

    name: GivenFileName  #: its name on the site, and in a chapter's links: files:NAME
    what: Text  #: what it is, and what it is for
    file: Text  #: where it is, below the build's folder


MOST_MARKS = 6  # whose words fit beside a picture on a phone


class PhotoMark(Frozen):
    """A point of a picture that words beside it tell of."""

    at: PicturePlace  #: from the left edge and from the top edge, in shares of the picture
    text: Text  #: what is there, in a few words


class Photo(Frozen):
    """A picture of the build."""

    file: PictureName  #: a file in the build's folder
    alt: Text  #: what it shows, in words
    side: Text | None = None  #: the side seen
    caption: Text | None = None  #: words under it
    step: Text | None = None  #: the step of the work at which it was taken
    #: points to which thin lines lead from words beside the picture, six at most
    marks: tuple[PhotoMark, ...] = ()

    @field_validator("marks", mode="after")
    @classmethod
    def _few(cls, value: tuple[PhotoMark, ...]) -> tuple[PhotoMark, ...]:
        """More words than six do not fit beside a picture on a phone."""
        if len(value) > MOST_MARKS:
            problem = (
                f"Here stand {len(value)} marks; beside a picture there is room for {MOST_MARKS}."
            )
            raise wrong("data/wrong-shape", problem, "Leave some out, or list the picture twice.")
        return value


class OwnMass(Frozen):
    """Mass that no part carries: glue, ties, solder not counted by joint."""

    what: Text  #: what it is: glue, ties, tape
    mass: SourcedMass  #: what it weighs


class Accept(Frozen):
    """A finding that the builder leaves as it is: which, where, how far, and why.

    It holds for this place only, and only while its first figure is no worse than `up_to` or
    `down_to`: a worse one, or another part there, is a new finding. Where the finding says too much it takes
    `up_to`, where it says too little `down_to`.
    """

    rule: Text  #: the finding's code, such as pack/discharge-limit
    #: where it stands: a part's or battery's name on the shelf, or keys of build.yaml such as setup/channel
    at: Text
    up_to: AnyAmount | None = None  #: the figure that is accepted, where more would be worse
    down_to: AnyAmount | None = None  #: the figure that is accepted, where less would be worse
    because: Text  #: why it stays; the sheet prints it


class Origin(Frozen):
    """A published build that this one was started from, and what its giver said of their own
    aircraft: words, which no figure reads.
    """

    title: Text  #: title of the build that was given
    build: Text | None = None  #: its name on the giver's site
    author: Text | None = None  #: who gave it
    licence: Text | None = None  #: under which licence
    site: Text | None = None  #: title of the giver's site
    address: Address | None = None  #: where that site is
    revised: Dated | None = None  #: the day of its last change
    invented: Text | None = None  #: yes, or words, if it was never made
    digest: Text | None = None  #: digest of the files that were given
    guide: Text | None = None  #: titles of the chapters of their guide
    chapters: Names = ()  #: chapters of the guide that were begun from theirs; each says so
    #: what its giver weighed, flew, tested and accepted, in words; it counts for nothing here
    history: tuple[Text, ...] = ()


class CopyReport(Frozen):
    """Found by others who built it after this one: words, which no figure reads."""

    by: Text  #: who built it
    title: Text | None = None  #: title of their build
    found: tuple[Text, ...] = ()  #: what they found, a sentence each


class BuildSource(Frozen):
    """build.yaml, after the variant's base was merged in."""

    title: Text  #: name of the build
    summary: Text = ""  #: what it is for, in a sentence or two
    revised: Dated | None = None  #: the day of the last change
    status: Status = "planned"  #: how far it has come
    based_on: Text | None = None  #: the build of which this one is a variant
    #: yes if a variant is another aircraft than its base: what was weighed and flown there was not it
    own_aircraft: Yes = False
    author: Text | None = None  #: who built it
    licence: Text | None = None  #: licence of the sheet and its source, where not the site's
    give_source: Yes = True  #: no if the sheet comes without its source to start from
    invented: Text | None = None  #: yes, or words, if the build was never made
    hero: Photo | None = None  #: the picture at the top
    photos: tuple[Photo, ...] = ()  #: further pictures
    parts: dict[str, PartUse] = Field(default_factory=dict)  #: parts by their role in the build
    packs: dict[str, PackUse] = Field(
        default_factory=dict
    )  #: flight batteries by a name of their own
    weighed: tuple[Weighed, ...] = ()  #: what a scale showed
    extra_mass: tuple[OwnMass, ...] = ()  #: mass that no part carries
    wires: tuple[Wire, ...] = ()  #: wires that are soldered
    plugs: tuple[Plug, ...] = ()  #: sockets joined by a cable
    screws: tuple[Screw, ...] = ()  #: screws by place
    steps: tuple[BuildStep, ...] = ()  #: the builder's own steps of work
    setup: Setup = Setup()  #: what is set after the iron is cold
    flights: tuple[Flight, ...] = ()  #: the log
    changes: tuple[Change, ...] = ()  #: what changed and when
    questions: tuple[Question, ...] = ()  #: what strangers ask, with answers
    incidents: tuple[Incident, ...] = ()  #: what broke
    maintenance: tuple[Maintenance, ...] = ()  #: what was done to keep it flying
    as_built: tuple[AsBuilt, ...] = ()  #: what came back from the bench
    guide_on_paper: Yes = False  #: yes if its chapters are printed with the bench sheet
    recording: Address | None = None  #: where a recording of the build can be seen
    chapters: tuple[Chapter, ...] = ()  #: time stamps of a recording
    files: tuple[GivenFile, ...] = ()  #: files to give along
    superseded_by: Text | None = None  #: the build that took its place
    retired_because: Text | None = None  #: why it is not built any more; printed at its head
    origin: tuple[
        Origin, ...
    ] = ()  #: published builds that it was started from, the first one first
    copies: tuple[CopyReport, ...] = ()  #: what others found who built it
    accept: tuple[Accept, ...] = ()  #: findings that the builder leaves as they are

    @field_validator("accept", mode="before")
    @classmethod
    def _was_a_group(cls, value: Any) -> Any:
        """`rule: reason` was the form of before; it accepted every place and every figure."""
        if isinstance(value, dict):
            rule = next(iter(value), "family/code")
            raise wrong(
                "data/wrong-shape",
                "Here a list is due: `accept` names place and figure of what is accepted.",
                f"Write '- {{rule: {rule}, at: PLACE, up_to: FIGURE, because: ...}}' for each; the"
                " finding says place and figure.",
            )
        return value
