"""Setup and upkeep pages: what has to be tried and looked at is there, and comes from the build
where it can.
"""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from itertools import combinations

import pytest

from builder.compute.setup.settings import MotorPlace
from builder.model.kinds import Frame, Propeller
from builder.pages.blocks import Cell, Number, Section, Span, Table, Tick, WriteIn
from builder.pages.drawing import Circle, Line, Words
from builder.pages.drawings.rotation_view import Outline, outline_of, rotation_view
from builder.pages.sections.radio import radio_section
from builder.pages.sections.setup import setup
from builder.pages.sections.upkeep import upkeep
from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import Checked, judged_alone
from tests.compute.small_workspace import one_build


def _walk(value: object) -> Iterator[object]:
    yield value
    if isinstance(value, tuple):
        for inner in value:
            yield from _walk(inner)
    elif is_dataclass(value):
        for field in fields(value):
            yield from _walk(getattr(value, field.name))


def _texts(value: object) -> Iterator[str]:
    for found in _walk(value):
        if isinstance(found, Span):
            yield found.text
        elif isinstance(found, Number):
            yield found.value
        elif isinstance(found, Cell) and found.note:
            yield found.note


IN_EUROS = "title: T\ncurrency: EUR"


def words(section: Section | None) -> str:
    return " ".join(x.text for x in _walk(section) if isinstance(x, Span))


def sheet(
    build: str, shelf: str = "frame: {kind: frame, name: F}", site: str = "title: T"
) -> SheetInput:
    return judged_alone(one_build(shelf, f"title: T\n{build}", site))


@pytest.mark.parametrize(
    "said",
    [
        "as they came to a file, before the first change",
        "Save the settings to a file again",
        "tip the nose down",
        "Tip the right side down",
        "heading shown must grow",
        "Fix the meter's leads on battery plus and minus",
        "Put the meter into the plus lead",
        "switch the transmitter off. The motors must stop within 1.0 s",
        "arm with the throttle up. It must refuse",
        "the arm switch on. It must refuse",
        "Plug in, try to arm. It must refuse",
        "Turn motor 1 alone. It must be the one at the front left. It must turn clockwise.",
        "Move the left shoulder through its positions: safe, armed.",
    ],
)
def test_everything_to_try_stands_on_the_setup_page(demo: Checked, said: str) -> None:
    """The list is the trade's (common practice, no source): save, tilt and turn, meters, lost link,
    arming.
    """
    assert said in words(setup(demo.sheets["dipper"]))


def test_a_build_that_says_nothing_of_its_setup_still_has_the_tests() -> None:
    text = words(setup(sheet("parts: {frame: frame}")))
    for said in (
        "The motors must stop within the set time",
        "Turn each motor alone",
        "before the first change",
    ):
        assert said in text


def test_ticks_have_names_of_their_own(demo: Checked) -> None:
    """A tick is kept by its name, so two of one name would be ticked together."""
    for found in demo.sheets.values():
        keys = [
            x.key
            for s in (setup(found), upkeep(found))
            for x in _walk(s)
            if isinstance(x, Tick | WriteIn)
        ]
        assert len(keys) == len(set(keys)) > 20


def test_serial_ports_say_what_they_are_wired_to_and_what_they_speak(demo: Checked) -> None:
    text = words(setup(demo.sheets["dipper"]))
    assert "controller, port 2" in text and "receiver" in text and "plain frames" in text


BANDS = """title: T
allowed: [{from: 5725 MHz, to: 5875 MHz, eirp: 25 mW, serves: video}]
bands: {weir: {1: 5736 MHz, 2: 5900 MHz}, mill: {1: 5800 MHz}}
"""
VIDEO = "vtx: {kind: video-transmitter, name: Video, set: 25 mW}"


def test_the_channel_table_says_what_is_allowed_and_what_is_set() -> None:
    section = radio_section(
        sheet("parts: {vtx: vtx}\nsetup: {channel: {band: weir, number: 1}}", VIDEO, BANDS)
    )
    assert section is not None
    table = next(x for x in section.blocks if getattr(x, "caption", "") == "Channel table")
    assert isinstance(table, Table)
    rows = [
        [" ".join(p.text for p in c.pieces if isinstance(p, Span)) for c in r.cells]
        for r in table.rows
    ]
    assert rows == [
        ["weir", "1", "5736", "inside", "this build"],
        ["weir", "2", "5900", "outside", ""],
        ["mill", "1", "5800", "inside", ""],
    ]


@pytest.mark.parametrize(
    "said",
    [
        "The first 30 seconds",
        "Stand behind it, well clear",
        "motors with a finger: it may be hot",
        "screws are tight",
        "After flights 1 to 3",
        "After every tenth flight",
        "no play along or across the shaft",
        "nuts or screws: tight",
        "Check the strap: ",
        "T antenna",
        "joints of the battery's lead",
        "Battery small, resistance of each cell",
        "After a crash",
        "If it smokes, hisses or burns, stay away",
        "unplug the battery before you touch anything else",
        "Dispose of it by local rules",
    ],
)
def test_what_keeps_it_flying_stands_on_the_page(demo: Checked, said: str) -> None:
    """The stages are those of the issue; what is looked at is common practice, no source."""
    section = upkeep(demo.sheets["dipper"])
    headings = " ".join(s.heading for s in _walk(section) if isinstance(s, Section))
    assert said in f"{words(section)} {headings}"


def test_each_cell_of_each_pack_has_a_box_to_write_in(demo: Checked) -> None:
    boxes = [x.key for x in _walk(upkeep(demo.sheets["redshank"])) if isinstance(x, WriteIn)]
    assert boxes == [f"upkeep-cell-{pack}-{n}" for pack in ("old", "bank") for n in range(1, 7)]


def test_spares_and_history_with_their_sums(demo: Checked) -> None:
    text = words(upkeep(demo.sheets["redshank"]))
    for said in (
        "Clipped a fence post",
        "added to what was weighed before",
        "Together",
        "at flight 14",
    ):
        assert said in text or said in repr(upkeep(demo.sheets["redshank"])), said


def test_what_an_event_weighed_or_cost_is_not_noted_where_nobody_says_it() -> None:
    """Nothing that is missing reads as none: '+0.0 g' would be a reading."""
    events = "incidents: [{date: 2026-03-01, what: Landed hard.}, %s]"
    known = "{date: 2026-03-10, what: Hit a post., mass: +0.6 g, cost: 2.00 EUR}"
    made = upkeep(sheet(f"parts: {{frame: frame}}\n{events % known}", site=IN_EUROS))
    (table,) = [t for t in _walk(made) if isinstance(t, Table) and t.anchor == "history"]
    first, second, together = (" ".join(_texts(row)) for row in table.rows)
    assert first.count("not noted") == 2 and "0.0" not in first
    assert "+0.6" in second and "2.00" in second and "not noted" not in second
    assert "+0.6" in together and "without 1 of which it is not noted" in together


def test_upkeep_asks_only_for_what_is_there() -> None:
    text = words(upkeep(sheet("parts: {frame: frame}")))
    assert "arms without cracks" in text
    for absent in (
        "can be touched",
        "Check the motor bells",
        "resistance of each cell",
        "Check the strap: ",
    ):
        assert absent not in text


@pytest.mark.parametrize("turns", ["clockwise", "counter-clockwise"])
def test_arrows_of_the_top_view_go_the_way_that_is_written(turns: str) -> None:
    """On a page y grows downwards, so a turn to the right has a positive cross product of radius
    and step.
    """
    other = "counter-clockwise" if turns == "clockwise" else "clockwise"
    corners = ("front left", "front right", "rear right", "rear left")
    motors = tuple(
        MotorPlace(str(i), c, (turns, other)[(i - 1) % 2]) for i, c in enumerate(corners, 1)
    )
    places = {"1": (1.0, 1.0), "2": (1.0, -1.0), "3": (-1.0, -1.0), "4": (-1.0, 1.0)}
    drawn = rotation_view("t", motors, "in", Outline(places, 0.7))
    assert drawn is not None
    rings = [i for i in drawn.items if isinstance(i, Circle)]
    arcs = [i for i in drawn.items if isinstance(i, Line) and len(i.points) > 10]
    heads = [
        i for i in drawn.items if isinstance(i, Line) and i.tone == "accent" and len(i.points) == 3
    ]
    for motor, ring, arc, head in zip(motors, rings, arcs, heads, strict=True):
        (x0, y0), (x1, y1) = arc.points[-2:]
        turn = (x0 - ring.x) * (y1 - y0) - (y0 - ring.y) * (x1 - x0)
        assert (turn > 0) == (motor.turns == "clockwise")
        assert head.points[1] == pytest.approx(arc.points[-1])
        assert (head.points[0][0] - head.points[1][0]) * (
            x1 - x0
        ) < 0  # the tail lies where the tip comes from
    assert "motor 1 front left " + turns in drawn.alt


@pytest.mark.parametrize("name", ["curlew", "turnstone"])
def test_the_top_view_is_the_builds_own(demo: Checked, name: str) -> None:
    """Distances on paper against the frame's own places by one scale, with the front above and left
    on the left; the battery is drawn where it sits.
    """
    sheet = demo.sheets[name]
    build, motors = sheet.build, sheet.results.settings.motors
    outline = outline_of(build, motors)
    assert outline is not None and outline.battery is not None
    drawn = rotation_view("t", motors, "", outline)
    assert drawn is not None
    found = [i for i in drawn.items if isinstance(i, Circle)]
    rings = {m.number: r for m, r in zip(motors, found, strict=True)}
    places = build.of_kind(Frame)[0].part.motors
    assert places is not None
    scale = (rings["2"].x - rings["1"].x) / (places["1"].y - places["2"].y)
    assert scale > 0
    for a, b in combinations(rings, 2):
        down, right = places[a].x - places[b].x, places[a].y - places[b].y
        assert rings[b].y - rings[a].y == pytest.approx(scale * down)
        assert rings[b].x - rings[a].x == pytest.approx(scale * right)
    diameter = build.of_kind(Propeller)[0].part.diameter
    assert diameter is not None
    assert rings["1"].radius == pytest.approx(scale * diameter.value / 2)
    assert any(isinstance(i, Words) and i.text == "battery" for i in drawn.items)
    assert all(
        r.x - r.radius >= 0 and r.x + r.radius <= drawn.width and r.y + r.radius <= drawn.height
        for r in rings.values()
    )


@pytest.mark.parametrize(
    ("name", "compass", "satellites"),
    [("turnstone", False, True), ("curlew", True, True), ("dipper", False, False)],
)
def test_only_what_is_there_is_tried_and_a_refusal_only_after_it_armed(
    demo: Checked, name: str, *, compass: bool, satellites: bool
) -> None:
    """A refusal that has another cause, as no satellites indoors, proves nothing."""
    said = words(setup(demo.sheets[name]))
    assert ("show north as north" in said) == compass
    first = said.index("Switch to safe. Only now does a refusal tell anything.")
    assert first < said.index("It must refuse")
    assert ("Go outdoors for this" in said) == satellites


@pytest.mark.parametrize("name", ["dipper", "turnstone", "pipit", "curlew"])
def test_volts_against_a_meter_are_read_behind_the_limiter(demo: Checked, name: str) -> None:
    """Two clips on the battery's contacts can meet: the limiter then takes what comes."""
    said = words(setup(demo.sheets[name]))
    volts = said[said.index("Volts: unplug ") :]
    clips, plug = volts.index("two insulated clips"), volts.index("Plug in through the limiter")
    assert volts.index("reads under 1 V") < clips < plug < volts.index("Take the meter off")
