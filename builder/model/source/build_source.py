"""A build as a person writes it: build.yaml, field by field."""

from typing import Any, ClassVar, Literal

from pydantic import Field, field_validator

from builder.model.source.build_along import Chapter, GivenFile, Origin, Photo
from builder.model.source.build_joints import Plug, Screw, Wire
from builder.model.source.build_log import (
    AsBuilt,
    Change,
    CopyReport,
    Flight,
    Incident,
    Maintenance,
    Question,
    Weighed,
)
from builder.model.source.electrical import Names
from builder.model.source.part import Price
from builder.model.source.setup_source import Setup
from builder.model.values.base import Frozen, Short, SourcedMass
from builder.model.values.bounds_of_bodies import (
    Dated,
    InSeries,
    PackTemperature,
    Parallel,
    PartMass,
    Pieces,
    PiecesOrNone,
    Seat,
    Turn,
)
from builder.model.values.bounds_of_circuits import (
    FullCell,
    LandingCell,
    Limit,
    PackVoltage,
    SeriesCells,
)
from builder.model.values.mistaken import wrong
from builder.model.values.quantities import Address, AnyAmount, PictureName, Text, Yes

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
