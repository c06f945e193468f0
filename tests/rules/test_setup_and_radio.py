"""Rules of setup and radio: what is found, on the smallest build that shows it."""

from math import log10

import pytest

from builder.compute.compute import compute
from builder.compute.figures.figure import Figure
from builder.rules.find_rules import all_rules
from builder.rules.rule import Case, Found, Judged, NotJudged
from tests.compute.small_workspace import one_build

SHELF = """
fc: {kind: flight-controller, name: Board, pads: {TX1: {role: sends, serial: 1}, RX1: {role: listens, serial: 1}}}
rx: {kind: receiver, name: Receiver, pads: {TX: {role: sends}, RX: {role: listens}}}
vtx: {kind: video-transmitter, name: Video, set: 25 mW}
aerial: {kind: antenna, name: Aerial, gain: 2 dBi, polarisation: left-hand}
"""
SITE = """title: T
allowed: [{from: 5725 MHz, to: 5875 MHz, eirp: 25 mW, serves: video}]
bands: {weir: {1: 5736 MHz, 2: 5645 MHz}}
radio: {video_receive_gain: 5 dBi, video_polarisation: right-hand, video_sensitivity: -90 dBm, fade_margin: 10 dB}
"""
VIDEO = (
    "parts: {vtx: vtx, video-antenna: aerial}\nsetup: {channel: {band: weir, number: %s, power: %s,"
    " range: 150 m}}"
)
TURNS = (
    "setup: {rotation: {corners: {1: front left, 2: front right, 3: rear right, 4: rear left}, "
    "turns: {1: %s, 2: %s, 3: %s, 4: %s}, props: %s}}"
)
CW, CCW = "clockwise", "counter-clockwise"


def _outcomes(code: str, build: str) -> tuple[list[str], int]:
    """Messages that the rule finds, and how many things it looked at and passed."""
    made = one_build(SHELF, f"title: T\n{build}", SITE)
    rule = next(r for r in all_rules() if r.code == code)
    out = list(rule.check(Case(made, compute(made))))
    return [o.message for o in out if isinstance(o, Found)], sum(isinstance(o, Judged) for o in out)


@pytest.mark.parametrize(
    ("code", "build", "says"),
    [
        (
            "radio/channel-not-allowed",
            VIDEO % (2, "10 mW"),
            "at 5645 MHz; allowed: 5725 to 5875 MHz",
        ),
        (
            "radio/radiated-power-over-limit",
            VIDEO % (1, "25 mW"),
            "radiates 39.6 mW e.i.r.p.; 25 mW is allowed",
        ),
        (
            "radio/polarisation-mismatch",
            VIDEO % (1, "10 mW"),
            "sent left-hand and received right-hand",
        ),
        (
            "setup/fail-safe-holds-throttle",
            "setup: {fail_safe: {does: holds throttle}}",
            "the throttle stays where it was",
        ),
        (
            "setup/neighbours-turn-alike",
            TURNS % (CW, CW, CCW, CCW, "in"),
            "neighbours and both turn clockwise",
        ),
        ("setup/props-disagree", TURNS % (CCW, CW, CCW, CW, "in"), "they go out"),
        (
            "setup/orientation-disagrees",
            "parts: {fc: {use: fc, yaw: 90 deg}}\nsetup: {orientation: {yaw: 0 deg}}",
            "turned 90°; the software is told 0°",
        ),
        (
            "setup/port-disagrees",
            "parts: {fc: fc, rx: rx}\nsetup: {serial: [{port: 1, serves: rx}]}",
            "set to serve rx, but is wired to nothing",
        ),
    ],
)
def test_found(code: str, build: str, says: str) -> None:
    found, _ = _outcomes(code, build)
    assert len([m for m in found if says in m]) >= 1, found


@pytest.mark.parametrize(
    ("code", "build"),
    [
        ("radio/channel-not-allowed", VIDEO % (1, "10 mW")),
        ("radio/radiated-power-over-limit", VIDEO % (1, "15 mW")),
        ("setup/fail-safe-holds-throttle", "setup: {fail_safe: {does: motors stop, within: 1 s}}"),
        ("setup/neighbours-turn-alike", TURNS % (CW, CCW, CW, CCW, "in")),
        ("setup/props-disagree", TURNS % (CW, CCW, CW, CCW, "in")),
        (
            "setup/orientation-disagrees",
            "parts: {fc: {use: fc, yaw: 90 deg}}\nsetup: {orientation: {yaw: -270 deg}}",
        ),
    ],
)
def test_passed(code: str, build: str) -> None:
    found, passed = _outcomes(code, build)
    assert not found
    assert passed


def test_silence_about_a_lost_link_is_not_judged() -> None:
    found, passed = _outcomes("setup/fail-safe-holds-throttle", "setup: {software: any}")
    assert not found
    assert passed == 0


CONTROL = """
setup: {control: {power: 100 mW, frequency: 2440 MHz, range: 300 m%s}}
parts: {rx: rx, rx-antenna: straight}
"""
CONTROL_SITE = (
    "title: T\nallowed: [{from: 2400 MHz, to: 2483.5 MHz, eirp: 100 mW, serves: control}]"
)
CONTROL_SHELF = (
    "rx: {kind: receiver, name: Receiver, sensitivity: -105 dBm, pads: {TX: {role: sends}, RX:"
    " {role: listens}}}\nstraight: {kind: antenna, name: Straight, gain: 1.9 dBi, polarisation:"
    " linear}\n"
)


def test_control_power_on_an_unknown_antenna_is_not_judged() -> None:
    """What radiates is power times gain (ITU Radio Regulations 1.161); without the gain nobody
    knows it.
    """
    made = one_build(CONTROL_SHELF, f"title: T{CONTROL % ''}", CONTROL_SITE)
    rule = next(r for r in all_rules() if r.code == "radio/radiated-power-over-limit")
    (outcome,) = rule.check(Case(made, compute(made)))
    assert isinstance(outcome, NotJudged)
    assert outcome.missing == "the gain of the control transmitter's antenna unknown"


def test_control_power_counts_the_gain_of_its_antenna() -> None:
    made = one_build(
        CONTROL_SHELF,
        f"title: T{CONTROL % ', gain: 2 dBi, polarisation: right-hand'}",
        CONTROL_SITE,
    )
    results = compute(made)
    link = results.settings.radio.control
    assert link is not None
    assert (
        isinstance(link.radiated, Figure)
        and isinstance(link.margin, Figure)
        and isinstance(link.polarisation, Figure)
    )
    assert link.radiated.value == pytest.approx(0.1 * 10**0.2)
    assert link.polarisation.value == pytest.approx(3.01, abs=0.005)  # linear to circular
    # Rec. ITU-R P.525: 32.4 + 20 lg 2440 + 20 lg 0.3 dB
    path = 32.4 + 20 * log10(2440) + 20 * log10(0.3)
    assert link.margin.value == pytest.approx(20 + 2 - path - 3.01 + 1.9 + 105, abs=0.06)
    rule = next(r for r in all_rules() if r.code == "radio/radiated-power-over-limit")
    (outcome,) = rule.check(Case(made, results))
    assert isinstance(outcome, Found) and "158.5 mW" in outcome.message


@pytest.mark.parametrize(
    "does",
    [
        "other: keeps the last throttle, and lands when the battery is empty",
        "other: throttle frozen until the home button is pressed",
    ],
)
def test_a_throttle_that_is_held_does_not_pass_by_a_word_of_safety_elsewhere(does: str) -> None:
    _, passed = _outcomes(
        "setup/fail-safe-holds-throttle", f"setup: {{fail_safe: {{does: '{does}'}}}}"
    )
    assert passed == 0


PACKED = "packs: {p: pack}\nsetup: {landing: {volts: 3.5 V}, alarms: [{pack: p, %s}]}"
PACK = "pack: {kind: pack, name: Pack, chemistry: lithium-polymer, cells: 4S, capacity: 650 mAh}\n"


@pytest.mark.parametrize(
    ("alarm", "says"),
    [
        # 650 mAh hold no 900 mAh; four cells land at 14.0 V and have 16.8 V full (4.20 V a cell:
        # cell data sheets).
        ("used: 900 mAh", "warns above 900 mAh used; it holds 650 mAh."),
        ("used: 650 mAh", "it holds 650 mAh."),
        ("used: 530 mAh", "82 % of it"),
        ("used: 520 mAh", ""),
        ("volts: 13.9 V", "lands at 3.50 V"),
        ("volts: 14.0 V", ""),
        ("volts: 3.5 V", "lands at 3.50 V"),
        ("volts: 16.8 V", "so it always warns"),
    ],
)
def test_an_alarm_is_held_against_its_pack(alarm: str, says: str) -> None:
    made = one_build(PACK, f"title: T\n{PACKED % alarm}")
    rule = next(r for r in all_rules() if r.code == "setup/alarm-too-late")
    found = [o.message for o in rule.check(Case(made, compute(made))) if isinstance(o, Found)]
    assert len(found) == bool(says)
    assert all(says in m for m in found)


def test_a_pack_without_its_alarm_is_not_judged() -> None:
    made = one_build(
        PACK, f"title: T\n{PACKED % 'volts: 14.0 V'}".replace("{p: pack}", "{p: pack, q: pack}")
    )
    rule = next(r for r in all_rules() if r.code == "setup/alarm-too-late")
    lacking = [o.missing for o in rule.check(Case(made, compute(made))) if isinstance(o, NotJudged)]
    assert lacking == ["volts or charge at which battery q warns"]


def test_an_alarm_of_a_pack_that_is_not_there_is_not_judged() -> None:
    made = one_build(PACK, f"title: T\n{PACKED % 'volts: 14.0 V'}".replace("pack: p,", "pack: pp,"))
    rule = next(r for r in all_rules() if r.code == "setup/alarm-too-late")
    lacking = [o.missing for o in rule.check(Case(made, compute(made))) if isinstance(o, NotJudged)]
    assert len(lacking) == 2 and "'pp'" in lacking[0]
