"""Rules of fit: what is found and what passes, on the smallest builds that show it. Common
practice, no source.
"""

import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.diagnostics.finding import Severity, Signal
from builder.rules.find_rules import all_rules
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from tests.compute.small_workspace import one_build

FAULT, REMARK, NOTHING = "fault", "remark", ""

FRAME = "frame: {kind: frame, name: Frame, %s}\n"
MOTOR = "motor: {kind: motor, name: Motor, %s}\n"
PROP = "prop: {kind: propeller, name: Propeller, %s}\n"
SCREW = (
    "motor: {kind: motor, name: Motor, thread: M2, thread_depth: %s}\n"
    "screw: {kind: hardware, name: Screw, thread: M2, length: %s}\n"
)
SCREWED = (
    "screws: [{place: motors, use: screw, count: 16, through: [{what: arm, thick: %s}], into:"
    " motor}]"
)
NUT = "screw: {kind: hardware, name: Screw, thread: M3, length: %s}\n"
INTO_NUT = (
    "parts: {screw: screw}\nscrews: [{place: stack, use: screw, count: 4, through: [{what: plates,"
    " thick: 10 mm}], into: nut, depth: 9 mm, behind: %s}]"
)
ALL = "parts: {frame: frame, motor: {use: motor, count: 4}, prop: {use: prop, count: 4}}"
RADIO = (
    "video: {kind: video-transmitter, name: Video, antenna: %s, coax: {type: press-on, gender:"
    " pin}}\naerial: {kind: antenna, name: Aerial, coax: {type: %s, gender: %s}}\n"
)


def outcomes(code: str, shelf: str, build: str) -> list[Outcome]:
    """All that one rule says."""
    made = one_build(shelf, f"title: T\n{build}")
    rule = next(r for r in all_rules() if r.code == code)
    return list(rule.check(Case(made, compute(made))))


def worst(code: str, shelf: str, build: str) -> str:
    """The worst severity that it finds, in a word; nothing found has to be said as passed."""
    said = outcomes(code, shelf, build)
    rule = next(r for r in all_rules() if r.code == code)
    found = [o.severity or rule.severity for o in said if isinstance(o, Found)]
    if not found:
        assert any(isinstance(o, Judged) for o in said), "silence is no pass"
        return NOTHING
    return FAULT if Severity.FAULT in found else REMARK


@pytest.mark.parametrize(
    ("code", "shelf", "build", "expected"),
    [
        # Screws into a motor: length less arm is what stands in; 0.3 mm stay clear of the winding.
        (
            "fit/screw-too-long",
            SCREW % ("3 mm", "6 mm"),
            SCREWED % "3.5 mm",
            NOTHING,
        ),  # 0.5 mm left
        (
            "fit/screw-too-long",
            SCREW % ("3 mm", "6 mm"),
            SCREWED % "3.3 mm",
            NOTHING,
        ),  # 0.3 mm left, just enough
        ("fit/screw-too-long", SCREW % ("3 mm", "6 mm"), SCREWED % "3.2 mm", FAULT),  # 0.2 mm left
        (
            "fit/screw-too-long",
            SCREW % ("3 mm", "8 mm"),
            SCREWED % "3.5 mm",
            FAULT,
        ),  # M2 x 8 reaches the winding
        # Grip: 1.2 mm of M2 are 0.6 diameters, 1.6 mm are 0.8.
        ("fit/screw-grips-little", SCREW % ("3 mm", "6 mm"), SCREWED % "4.4 mm", NOTHING),
        ("fit/screw-grips-little", SCREW % ("3 mm", "6 mm"), SCREWED % "4.5 mm", REMARK),
        ("fit/screw-grips-little", SCREW % ("3 mm", "6 mm"), SCREWED % "4.9 mm", FAULT),
        ("fit/screw-grips-little", SCREW % ("3 mm", "6 mm"), SCREWED % "7 mm", FAULT),
        # Ends toward the pack: an M3 nut is 2.4 mm high (ISO 4032), so 14 mm stand out by 1.6 mm.
        ("fit/screw-toward-pack", NUT % "14 mm", INTO_NUT % "pack bay", FAULT),
        ("fit/screw-toward-pack", NUT % "12 mm", INTO_NUT % "pack bay", NOTHING),
        ("fit/screw-toward-pack", NUT % "14 mm", INTO_NUT % "nothing", NOTHING),
        # Holes.
        (
            "fit/motor-pattern-missing",
            FRAME % "motor_pattern: 16 mm M3" + MOTOR % "pattern: 16 x 16 mm M3",
            "parts: {frame: frame, motor: motor}",
            NOTHING,
        ),
        (
            "fit/motor-pattern-missing",
            FRAME % "motor_pattern: 16 x 19 mm M3" + MOTOR % "pattern: 16 mm M3",
            "parts: {frame: frame, motor: motor}",
            NOTHING,
        ),
        (
            "fit/motor-pattern-missing",
            FRAME % "motor_pattern: 9 mm M2" + MOTOR % "pattern: 12 mm M2",
            "parts: {frame: frame, motor: motor}",
            FAULT,
        ),
        (
            "fit/board-pattern-missing",
            FRAME % "patterns: [20 x 20 mm M2, 30.5 x 30.5 mm M3]"
            + "fc: {kind: flight-controller, name: B, pattern: 30.5 x 30.5 mm M3}",
            "parts: {frame: frame, fc: fc}",
            NOTHING,
        ),
        (
            "fit/board-pattern-missing",
            FRAME % "patterns: [20 x 20 mm M2]"
            + "fc: {kind: flight-controller, name: B, pattern: 25.5 x 25.5 mm M2}",
            "parts: {frame: frame, fc: fc}",
            FAULT,
        ),
        # Propellers.
        (
            "fit/propeller-too-large",
            FRAME % "disc_max: 80 mm" + PROP % "diameter: 3 in",
            "parts: {frame: frame, prop: prop}",
            NOTHING,
        ),
        (
            "fit/propeller-too-large",
            FRAME % "disc_max: 76 mm" + PROP % "diameter: 3 in",  # 76.2 mm
            "parts: {frame: frame, prop: prop}",
            FAULT,
        ),
        (
            "fit/mount-unlike",
            MOTOR % "mount: two-screw, mount_spacing: 5 mm" + PROP % "mount: two-screw 5 mm",
            "parts: {motor: motor, prop: prop}",
            NOTHING,
        ),
        (
            "fit/mount-unlike",
            MOTOR % "mount: two-screw, mount_spacing: 5 mm" + PROP % "mount: two-screw 6 mm",
            "parts: {motor: motor, prop: prop}",
            FAULT,
        ),
        (
            "fit/mount-unlike",
            MOTOR % "mount: press" + PROP % "mount: shaft nut",
            "parts: {motor: motor, prop: prop}",
            FAULT,
        ),
        (
            "fit/bore-unlike-shaft",
            MOTOR % "shaft: 1.5 mm" + PROP % "bore: 1.5 mm, mount: press",
            "parts: {motor: motor, prop: prop}",
            NOTHING,
        ),
        (
            "fit/bore-unlike-shaft",
            MOTOR % "shaft: 5 mm" + PROP % "bore: 6 mm, mount: shaft nut",
            "parts: {motor: motor, prop: prop}",
            REMARK,
        ),
        (
            "fit/bore-unlike-shaft",
            MOTOR % "shaft: 5 mm" + PROP % "bore: 1.5 mm, mount: shaft nut",
            "parts: {motor: motor, prop: prop}",
            FAULT,
        ),
        (
            "fit/hands-missing",
            FRAME % "arm: 4 mm" + MOTOR % "kv: 2000 rpm/V" + PROP % "hands: 2+2",
            ALL,
            NOTHING,
        ),
        (
            "fit/hands-missing",
            FRAME % "arm: 4 mm" + MOTOR % "kv: 2000 rpm/V" + PROP % "hands: 4+0",
            ALL,
            FAULT,
        ),
        # A shaft that stands out wants a washer as thick.
        (
            "fit/shaft-touches-arm",
            FRAME % "arm: 4 mm" + MOTOR % "shaft_below: 0.4 mm",
            "parts: {frame: frame, motor: motor}",
            FAULT,
        ),
        (
            "fit/shaft-touches-arm",
            FRAME % "arm: 4 mm"
            + MOTOR % "shaft_below: 0.4 mm"
            + "screw: {kind: hardware, name: S, thread: M3, length: 8 mm}",
            (
                "parts: {frame: frame, motor: motor}\nscrews: [{place: motors, use: screw, count:"
                " 4, through: [{what: arm, thick: 4 mm}], into: motor, washer: 0.5 mm}]"
            ),
            NOTHING,
        ),
        (
            "fit/shaft-touches-arm",
            FRAME % "arm: 4 mm, arm_hole: 6 mm" + MOTOR % "shaft_below: 0.4 mm, shaft: 5 mm",
            "parts: {frame: frame, motor: motor}",
            NOTHING,
        ),
        # Camera: between the cheeks.
        (
            "fit/camera-width-unlike",
            FRAME % "camera_width: 14-20 mm" + "cam: {kind: camera, name: C, width: 19 mm}",
            "parts: {frame: frame, cam: cam}",
            NOTHING,
        ),
        (
            "fit/camera-width-unlike",
            FRAME % "camera_width: 19 mm" + "cam: {kind: camera, name: C, width: 22 mm}",
            "parts: {frame: frame, cam: cam}",
            FAULT,
        ),
        (
            "fit/camera-width-unlike",
            FRAME % "camera_width: 19 mm" + "cam: {kind: camera, name: C, width: 14 mm}",
            "parts: {frame: frame, cam: cam}",
            REMARK,
        ),
        # Antennas: one, of the radio's type, and of the other gender.
        (
            "fit/antenna-missing",
            RADIO % ("coax", "press-on", "socket"),
            "parts: {video: video, aerial: aerial}",
            NOTHING,
        ),
        (
            "fit/antenna-missing",
            RADIO % ("coax", "press-on", "socket"),
            "parts: {video: video}",
            FAULT,
        ),
        (
            "fit/antenna-missing",
            RADIO % ("fixed", "press-on", "socket"),
            "parts: {video: video}",
            NOTHING,
        ),
        (
            "fit/antenna-connector-unlike",
            RADIO % ("coax", "press-on", "pin"),
            "parts: {video: video, video-aerial: aerial}",
            FAULT,
        ),
        (
            "fit/antenna-connector-unlike",
            RADIO % ("coax", "screwed", "socket"),
            "parts: {video: video, video-aerial: aerial}",
            FAULT,
        ),
    ],
)
def test_what_is_found(code: str, shelf: str, build: str, expected: str) -> None:
    parts = "" if "parts:" in build else "parts: {motor: {use: motor, count: 4}, screw: screw}\n"
    assert worst(code, shelf, parts + build) == expected


def test_a_screw_toward_the_pack_is_danger() -> None:
    """ANSI Z535.6: DANGER will kill or badly injure."""
    rule = next(r for r in all_rules() if r.code == "fit/screw-toward-pack")
    assert rule.signal == Signal.DANGER
    assert rule.severity == Severity.FAULT


@pytest.mark.parametrize(
    ("posts", "expected"), [("20 mm", FAULT), ("22.2 mm", REMARK), ("25 mm", NOTHING)]
)
def test_height_of_a_stack_with_its_soft_mounts_pressed(posts: str, expected: str) -> None:
    """7.5 + 8 mm of boards and two soft mounts of 3.5 mm, pressed to 85 %: 15.5 + 5.95 = 21.45 mm."""
    shelf = (
        FRAME % f"posts: {posts}"
        + "esc: {kind: speed-controller, name: S, height: 7.5 mm, soft_mount: 3.5 mm}\n"
        + "fc: {kind: flight-controller, name: B, height: 8 mm, soft_mount: 3.5 mm}"
    )
    build = "parts: {frame: frame, esc: esc, fc: fc}"
    height = compute(one_build(shelf, f"title: T\n{build}")).stacks[0].height
    assert isinstance(height, Figure)
    assert height.value == pytest.approx(21.45e-3)
    assert worst("fit/stack-too-high", shelf, build) == expected


def test_boards_that_stand_apart_are_two_stacks() -> None:
    shelf = (
        FRAME
        % "posts: 12 mm"
        + "esc: {kind: speed-controller, name: S, height: 7 mm}\nfc: {kind: flight-controller,"
        " name: B, height: 7 mm}"
    )
    build = (
        "parts: {frame: frame, esc: {use: esc, at: '30 mm, 0 mm, 5 mm'}, fc: {use: fc, at: '-30 mm,"
        " 0 mm, 5 mm'}}"
    )
    assert len(compute(one_build(shelf, f"title: T\n{build}")).stacks) == 2
    assert worst("fit/stack-too-high", shelf, build) == NOTHING


def test_an_unknown_thread_depth_is_not_judged() -> None:
    shelf = SCREW.replace(", thread_depth: %s", "") % "6 mm"
    build = "parts: {motor: {use: motor, count: 4}, screw: screw}\n" + SCREWED % "3.5 mm"
    said = outcomes("fit/screw-too-long", shelf, build)
    assert [o.missing for o in said if isinstance(o, NotJudged)] == ["thread depth of motor"]
    assert not any(isinstance(o, Found | Judged) for o in said)


def test_motors_without_listed_screws_are_not_judged() -> None:
    said = outcomes("fit/screw-too-long", MOTOR % "kv: 2000 rpm/V", "parts: {motor: motor}")
    assert [o.missing for o in said if isinstance(o, NotJudged)] == [
        "screws of motor: none are listed under screws"
    ]
