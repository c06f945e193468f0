"""Sound builds of many kinds of hardware, drawn by chance: for what has to hold whatever is on the
bench.

Every one of them is built by somebody (common practice, no source): capacitors on pads of their
own, single speed controllers with and without capacitors, two control boards, boards soldered on
the underside, motors that plug in.
"""

import json
from random import Random
from typing import Any

from builder.model.build import Build
from tests.compute.small_workspace import FRAME, one_build

Pads = dict[str, dict[str, Any]]
_LOADS = ("receiver", "video", "camera", "lights", "buzzer")
_KINDS = {
    "receiver": "receiver",
    "video": "video-transmitter",
    "camera": "camera",
    "lights": "lights",
    "buzzer": "buzzer",
}


def _pair(
    side: str, *, battery: bool = True, draws: str = "draws", **more: Any
) -> tuple[dict[str, Any], dict[str, Any]]:
    """A plus and a minus contact."""
    flag = {"battery": "yes"} if battery else {}
    plus = {"role": draws, "polarity": "plus", "side": side, "copper": "power", **flag, **more}
    return plus, {
        "role": "ground",
        "polarity": "minus",
        "side": side,
        "copper": "plane",
        **flag,
        **more,
    }


def _drive_pads(rng: Random, channels: int) -> tuple[Pads, bool]:
    """The contacts of a speed controller, and whether it has contacts of its own for a capacitor."""
    under_battery, under_phase, marked = rng.random() < 0.3, rng.random() < 0.3, rng.random() < 0.8
    own = rng.random() < 0.5
    plus, minus = _pair("under" if under_battery else "top", battery=marked)
    pads: Pads = {"BAT+": plus, "BAT-": minus}
    if own:
        side, flagged = rng.choice(["top", "under"]), rng.random() < 0.5
        joined = rng.random() < 0.5
        plus, minus = _pair(side, battery=flagged, draws=rng.choice(["supply", "draws"]))
        pads["CAP+"] = {**plus, **({"joined_to": "BAT+"} if joined else {})}
        pads["CAP-"] = {**minus, **({"joined_to": "BAT-"} if joined else {})}
    for c in range(1, channels + 1):
        for lead in "ABC":
            pads[f"M{c}{lead}"] = {
                "role": "phase",
                "channel": c,
                "side": "under" if under_phase else "top",
                "copper": "power",
            }
        pads[f"S{c}"] = {"role": "drive-in", "channel": c}
    pads["SG"] = {"role": "ground", "copper": "signal"}
    return pads, own


def _capacitors(rng: Random, made: dict[str, Any], escs: list[str], own: bool) -> None:
    """No capacitor, one for all, or one for each speed controller, on the battery contacts or on
    their own.
    """
    how = rng.choice(["none", "one", "each"])
    boards = [] if how == "none" else escs[:1] if how == "one" else escs
    for i, esc in enumerate(boards):
        key = f"capacitor{i}"
        made["parts"][key] = "capacitor"
        to = "CAP" if own and rng.random() < 0.7 else "BAT"
        lead = (
            {"lead": "fitted", "trim_to": "12 mm"}
            if rng.random() < 0.7
            else {"gauge": "20 AWG", "length": "30 mm"}
        )
        made["wires"] += [
            {"from": f"{key}.PLUS", "to": f"{esc}.{to}+", **lead},
            {"from": f"{key}.MINUS", "to": f"{esc}.{to}-", **lead},
        ]


def _feeds(rng: Random, made: dict[str, Any], escs: list[str]) -> None:
    """From the connector to every speed controller, straight or handed on from one to the next."""
    chained = len(escs) > 1 and rng.random() < 0.3
    for i, esc in enumerate(escs):
        source = (
            ("pigtail.PLUS", "pigtail.MINUS")
            if i == 0 or not chained
            else (f"{escs[0]}.BAT+", f"{escs[0]}.BAT-")
        )
        for start, sign in zip(source, "+-", strict=True):
            made["wires"].append(
                {"from": start, "to": f"{esc}.BAT{sign}", "gauge": "18 AWG", "length": "80 mm"}
            )


def _loads(
    rng: Random, made: dict[str, Any], shelf: dict[str, Any], board: str, pads: Pads, esc: str
) -> None:
    """What hangs on a control board, from its upper side or from under it, one or two of a kind."""
    for load in _LOADS:
        if load in made["parts"] or rng.random() < 0.4:
            continue
        side = "under" if rng.random() < 0.3 else "top"
        shelf[load] = {
            "kind": _KINDS[load],
            "name": load.title(),
            "pads": {"G": {"role": "ground"}, "V": {"role": "draws"}, "S": {"role": "sense"}},
        }
        for pad, role in (("G", "ground"), ("V", "supply"), ("S", "sense")):
            pads[f"{load}-{pad}"] = {
                "role": role,
                "side": side,
                "copper": "plane" if pad == "G" else "signal",
            }
        count = rng.choice([1, 1, 2])
        made["parts"][load] = {"use": load, "count": count}
        for piece in [f"{load}.{n}" for n in range(1, count + 1)] if count > 1 else [load]:
            from_pack = rng.random() < 0.15
            for pad in "GVS":
                to = f"{esc}.BAT+" if from_pack and pad == "V" else f"{board}.{load}-{pad}"
                made["wires"].append(
                    {"from": f"{piece}.{pad}", "to": to, "gauge": "28 AWG", "length": "60 mm"}
                )


def _motors(
    rng: Random, made: dict[str, Any], shelf: dict[str, Any], drives: list[tuple[str, int]]
) -> None:
    """One motor a channel, soldered or plugged."""
    count = len(drives)
    made["parts"]["motor"] = {"use": "motor", "count": count}
    shelf["motor"] = {
        "kind": "motor",
        "name": "Motor",
        "pads": {x: {"role": "phase"} for x in "ABC"},
    }
    for n, (esc, channel) in enumerate(drives, 1):
        piece = f"motor.{n}" if count > 1 else "motor"
        lead = {"lead": "fitted", "trim_to": "80 mm"}
        if rng.random() < 0.2:
            lead = {"gauge": "24 AWG", "length": "80 mm"}
        made["wires"] += [
            {"from": f"{piece}.{x}", "to": f"{esc}.M{channel}{x}", **lead} for x in "ABC"
        ]


def _boards(
    rng: Random,
    made: dict[str, Any],
    shelf: dict[str, Any],
    escs: list[str],
    drives: list[tuple[str, int]],
) -> None:
    """One or two control boards, fed from the speed controllers by wires or by a harness."""
    count = rng.choice([1, 1, 2])
    harness = len(escs) == 1 and count == 1 and rng.random() < 0.5
    for b in range(1, count + 1):
        key = f"board{b}" if count > 1 else "board"
        side = "under" if rng.random() < 0.2 else "top"
        pads: Pads = {
            "VIN": {"role": "draws", "battery": "yes", "side": side},
            "HG": {"role": "ground", "side": side},
        }
        for n in range(1, len(drives) + 1):
            pads[f"D{n}"] = {"role": "drive-out", "channel": n, "side": side}
        shelf[key] = {"kind": "flight-controller", "name": f"Control board {b}", "pads": pads}
        made["parts"][key] = key
        if harness:
            shelf[key]["sockets"] = {"J": {"contacts": ["HG", "VIN"]}}
            shelf["esc"]["sockets"] = {"J": {"contacts": ["SG", "SV"]}}
            shelf["esc"]["pads"]["SV"] = {"role": "supply", "battery": "yes"}
            shelf["harness"] = {"kind": "cable", "name": "Harness"}
            made["parts"]["harness"] = "harness"
            made["plugs"] = [{"from": f"{escs[0]}.J", "to": f"{key}.J", "use": "harness"}]
        else:
            thin = {"gauge": "26 AWG", "length": "60 mm"}
            from_pigtail = rng.random() < 0.4
            made["wires"] += [
                {
                    "from": "pigtail.PLUS" if from_pigtail else f"{escs[0]}.BAT+",
                    "to": f"{key}.VIN",
                    **thin,
                },
                {
                    "from": "pigtail.MINUS" if from_pigtail else f"{escs[0]}.SG",
                    "to": f"{key}.HG",
                    **thin,
                },
            ]
            if b == 1:
                made["wires"] += [
                    {"from": f"{key}.D{n}", "to": f"{esc}.S{channel}", **thin}
                    for n, (esc, channel) in enumerate(drives, 1)
                ]
        _loads(rng, made, shelf, key, pads, escs[0])


def _antennas(rng: Random, made: dict[str, Any], shelf: dict[str, Any]) -> None:
    for radio in ("receiver", "video"):
        if radio in made["parts"] and rng.random() < 0.7:
            shelf[radio]["coax"] = {"type": radio}
            shelf[f"aerial-{radio}"] = {
                "kind": "antenna",
                "name": "Antenna",
                "coax": {"type": radio},
            }
            made["parts"][f"aerial-{radio}"] = f"aerial-{radio}"


def combo(seed: int) -> Build:
    """The build of a seed."""
    rng = Random(seed)
    single = rng.random() < 0.4
    combined = not single and rng.random() < 0.3
    channels = 1 if single else 4
    pads, own = _drive_pads(rng, channels)
    shelf: dict[str, Any] = {
        "esc": {
            "kind": "combined-board" if combined else "speed-controller",
            "name": "Controller",
            "pads": pads,
        },
        "propeller": {"kind": "propeller", "name": "Propeller"},
        "pigtail": {"kind": "connector", "name": "Pigtail"},
        "capacitor": {"kind": "capacitor", "name": "Capacitor", "leads": {"count": 2}},
        "sleeve": {"kind": "hardware", "name": "Shrink sleeve"},
    }
    shelf["pigtail"]["pads"] = {"PLUS": _pair("top", draws="supply")[0], "MINUS": _pair("top")[1]}
    shelf["capacitor"]["pads"] = {"PLUS": {"role": "draws"}, "MINUS": {"role": "ground"}}
    made: dict[str, Any] = {
        "title": f"Combination {seed}",
        "parts": {
            "frame": "frame",
            "propeller": {"use": "propeller", "count": 4},
            "pigtail": "pigtail",
            "sleeve": "sleeve",
        },
        "wires": [],
    }
    made["parts"]["esc"] = {"use": "esc", "count": 4} if single else "esc"
    escs = [f"esc.{n}" for n in range(1, 5)] if single else ["esc"]
    drives = [(e, 1) for e in escs] if single else [("esc", c) for c in range(1, 5)]
    _feeds(rng, made, escs)
    _capacitors(rng, made, escs, own)
    _motors(rng, made, shelf, drives)
    if combined:
        _loads(rng, made, shelf, "esc", shelf["esc"]["pads"], "esc")
    else:
        _boards(rng, made, shelf, escs, drives)
    _antennas(rng, made, shelf)
    shelf_text = FRAME + "".join(f"\n{key}: {json.dumps(part)}" for key, part in shelf.items())
    return one_build(shelf_text, json.dumps(made))
