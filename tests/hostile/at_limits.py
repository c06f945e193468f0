"""A build of the demo grown until it holds as much as the limits allow of everything at once. All
of it is invented.
"""

from pathlib import Path
from shutil import copytree

import yaml

from builder.load.limits import DEFAULT_LIMITS, Limits
from tests.workspace_edits import ROOT

DAY = "2026-10-11"


def _own_steps(most: int, given: list[dict[str, object]]) -> list[dict[str, object]]:
    """The build's own steps and a row of others, each after the one before and once the camera
    sits.
    """
    row: list[dict[str, object]] = [
        {"id": "own-0", "do": "fit", "part": "camera", "text": "Look at step 0."}
    ]
    while len(given) + len(row) < most:
        last = str(row[-1]["id"])
        step: dict[str, object] = {
            "id": f"own-{len(row)}",
            "do": "fit",
            "part": "camera",
            "text": "Look at it.",
        }
        row.append({**step, "after": last})
    return [*given, *row]


def _lists(build: dict[str, object], most: int) -> None:
    """Fills the log and the lists of words."""
    flight = {
        "date": DAY,
        "pack": "small",
        "airborne": "5 min 10 s",
        "used": "500 mAh",
        "air": "12 degC",
    }
    build["flights"] = [
        {**flight, "airborne": f"5 min {n % 60} s", "used": f"{470 + n % 60} mAh"}
        for n in range(most)
    ]
    build["changes"] = [{"date": DAY, "text": f"Looked over, {n}."} for n in range(most)]
    build["questions"] = [
        {"ask": f"Why {n}?", "answer": f"So that it flies, {n}."} for n in range(most)
    ]
    build["incidents"] = [
        {"date": DAY, "what": f"Fell {n}", "replaced": ["camera"]} for n in range(most // 4)
    ]
    build["maintenance"] = [{"date": DAY, "what": f"Wiped {n}"} for n in range(most // 4)]
    build["as_built"] = [
        {"date": DAY, "step": f"own-{n}", "text": "As planned."} for n in range(most // 4)
    ]
    build["weighed"] = [
        {"what": "dry", "mass": "154.5 g", "scale": "0.1 g", "date": DAY} for _ in range(most // 4)
    ]
    build["extra_mass"] = [
        {"what": f"tie {n}", "mass": {"estimate": "0.001 g"}} for n in range(most // 4)
    ]


def _pieces(build: dict[str, object]) -> int:
    """How many pieces a build counts: parts with their spares, packs, screws."""
    total = 0
    for group, keys in (
        ("parts", ("count", "spares")),
        ("packs", ("count",)),
        ("screws", ("count",)),
    ):
        uses = build[group]
        assert isinstance(uses, dict | list)
        for use in uses.values() if isinstance(uses, dict) else uses:
            total += sum(int(use.get(key, "1" if key == "count" else "0")) for key in keys)
    return total


def at_all_limits(folder: Path, limits: Limits = DEFAULT_LIMITS, name: str = "full") -> Path:
    """Writes a workspace with the shelf, the demo's Dipper, and one build at all limits that was
    made from it.
    """
    if not (folder / "builds").exists():
        for kept in ("shelf", "dipper"):
            copytree(ROOT / "builds" / kept, folder / "builds" / kept)
        (folder / "builds" / "site.yaml").write_text("title: Full\n", "utf-8")
    home = folder / "builds" / name
    copytree(folder / "builds" / "dipper", home)
    text = (home / "build.yaml").read_text("utf-8")
    build = yaml.load(text, yaml.BaseLoader)
    parts, wires = build["parts"], build["wires"]
    build["title"] = f"Full {name}"
    build["packs"] = {
        f"pack-{n}": {"use": "pack-4s-650", "at": f"{n % 9} mm, 0 mm, 44 mm"} for n in range(20)
    }
    build["packs"]["small"] = {"use": "pack-4s-650", "at": "3 mm, 0 mm, 44 mm"}
    pieces = _pieces(build)
    n = 0
    while len(parts) < limits.parts and pieces < limits.pieces:
        n, pieces = n + 1, pieces + 1
        parts[f"camera-{n}"] = {"use": "cam-weir", "at": f"{n} mm, 0 mm, 17 mm"}
        ends = (
            ("GND", "controller.GND3", "black"),
            ("5V", "controller.5V2", "red"),
            ("VID", "controller.VID-IN", "yellow"),
        )
        for pad, to, colour in ends[: max(0, limits.wires - len(wires))]:
            wire = {
                "from": f"camera-{n}.{pad}",
                "to": to,
                "colour": colour,
                "gauge": "28 AWG",
                "length": f"{60 + n} mm",
            }
            wires.append(wire)
    parts["motor-screw"]["count"] = str(int(parts["motor-screw"]["count"]) + limits.pieces - pieces)
    build["steps"] = _own_steps(limits.entries, build["steps"])
    _lists(build, limits.entries)
    build.pop("accept", None)
    (home / "build.yaml").write_text(yaml.safe_dump(build, sort_keys=False, width=200), "utf-8")
    return folder
