"""Made-up builds whose pictures are hard to lay out: long names, many parts, six rotors over three
boards, boards that lie turned and upside down.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from builder.pages.sheet_input import SheetInput
from builder.rules.judge import judge
from tests.pages.views.drawn import lying
from tests.rules.altered_demo import Tree, case_of
from tests.rules.test_six_rotors import _shelf as shelf_of_six
from tests.rules.test_six_rotors import _six as with_six

LONG = {
    "esc": "speed-controller-of-all-four-motors",
    "controller": "control-board-with-two-compass-lines",
    "receiver": "receiver-of-the-long-range-link",
    "video": "video-transmitter-of-the-field-group",
    "lights": "lights-under-the-rear-arms",
    "pigtail": "pigtail-of-the-main-battery",
}


def _renamed(words: str) -> str:
    head, dot, rest = words.partition(".")
    return LONG.get(head, head) + dot + rest


def _long(tree: Tree) -> None:
    """All of the large parts with names that nobody shortened."""
    tree["title"] = "Redshank 5 of the second bench group, with the recorder of the flood wardens"
    tree["parts"] = {LONG.get(k, k): v for k, v in tree["parts"].items()}
    for line in (*tree["wires"], *tree["plugs"]):
        line.update({end: _renamed(line[end]) for end in ("from", "to")})
    tree.pop("steps")
    for key in ("as_built", "accept", "setup", "flights", "weighed", "changes"):
        tree.pop(key, None)
    tree["packs"] = {f"{k}-battery-of-the-first-season": v for k, v in tree["packs"].items()}


def _many(tree: Tree) -> None:
    """Two dozen small parts more, in four rows beside each other."""
    for i in range(24):
        at = f"{60 - 8 * (i // 4)} mm, {30 - 20 * (i % 4)} mm, {30 + i % 3} mm"
        tree["parts"][f"beeper-{i}"] = {"use": "buzzer-finch", "at": at}


def _sheet(folder: Path, build: str, change: Callable[[Tree], None], shelf: str = "") -> SheetInput:
    case = case_of(folder, build, change, shelf)
    return SheetInput(case.build, case.whole, judge(case), draft=False)


MADE_UP: dict[str, Callable[[Path, Any], SheetInput]] = {
    "six rotors": lambda folder, _: _sheet(folder, "curlew", with_six, shelf_of_six()),
    "long names": lambda folder, _: _sheet(folder, "redshank", _long),
    "many parts": lambda folder, _: _sheet(folder, "redshank", _many),
    "turned": lambda _, demo: lying(
        demo.sheets["redshank"], esc=(90.0, "down"), controller=(180.0, "up")
    ),
    "askew": lambda _, demo: lying(
        demo.sheets["curlew"], esc=(30.0, "up"), controller=(255.0, "down")
    ),
    "upside down": lambda _, demo: lying(demo.sheets["pipit"], board=(180.0, "down")),
}
