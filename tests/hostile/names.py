"""Names that a stranger may give, by class, and every place of the source where somebody gives one."""

from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel

from builder.model.kinds import KINDS
from builder.model.site import Site
from builder.model.source.build_source import BuildSource
from tests.publish.sources import Sources

# By class; none of them may name what becomes an address, a file or a key of figures.
HOSTILE: dict[str, tuple[str, ...]] = {
    "steps upward": (
        "..",
        "../x",
        "../../../x/y",
        "a/../b",
        "a/../../../b",
        "..\\..\\x",
        "%2e%2e",
        "%2e%2e%2fx",
    ),
    "no step": (".", "", " ", "./x", "a/.", "a//b"),
    "from the root": (
        "/",
        "/x",
        "/etc/passwd",
        "\\x",
        "\\\\host\\share",
        "C:",
        "C:\\x",
        "file:///x",
        "~",
        "~/x",
    ),
    "devices": ("con", "NUL", "aux.txt", "com1", "Prn.a.b", "lpt9"),
    "ends": (
        "a.",
        "a ",
        " a",
        "a-",
        "-a",
        "--help",
        ".a",
        "_a",
        ".site-next",
        ".benchleaf.json",
        ".git",
    ),
    "long": ("a" * 81, "a" * 300, "é" * 41),
    "forms": ("e\u0301", "a\u0308b", "\u212a", "ﬁ\u0301"),
    "unseen": (
        "a\u202eb",
        "a\u200bb",
        "a\u200db",
        "\ufeffa",
        "a\u00adb",
        "a\u2066b",
        "a\u180eb",
        "a\u2060b",
    ),
    "control": ("a\nb", "a\tb", "a\x00b", "a\x1b[31mb", "a\x7fb", "a\u2028b"),
    "marks": (
        'a"b',
        "a'b",
        "<b>",
        "</script>",
        "a&b",
        "a;b",
        "$(id)",
        "`id`",
        "a|b",
        "a*",
        "a?",
        "a#b",
        "a%b",
        "a,b",
    ),
    "pictures": ("😀", "a😀", "👩‍🔧", "→"),
}
NAMES = tuple(dict.fromkeys(name for names in HOSTILE.values() for name in names))
# Letters that a key of figures may have, for people who do not write English; an address may not.
FINE_IN_KEYS = ("ﬁ\u0301",)


@dataclass(frozen=True)
class Place:
    """A mapping of the source: its class and field, the file, and the keys that lead to it."""

    name: str
    file: str
    path: tuple[str | int, ...]


def _models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inner in get_args(annotation):
        yield from _models_in(inner)


def _is_mapping(annotation: Any) -> bool:
    """Whether its keys are a person's own; a few fixed words are no names."""
    inner = get_args(annotation)
    if get_origin(annotation) is dict:
        return get_origin(inner[0]) is not Literal
    return any(_is_mapping(a) for a in inner)


def mappings(*models: type[BaseModel]) -> dict[str, str]:
    """Every field of these models, and of those inside, whose keys a person makes up: its key, by
    class and field.
    """
    found: dict[str, str] = {}
    waiting, seen = [*models], set[type[BaseModel]]()
    while waiting:
        model = waiting.pop()
        if model in seen:
            continue
        seen.add(model)
        for name, field in model.model_fields.items():
            waiting += _models_in(field.annotation)
            if _is_mapping(field.annotation):
                owner = [
                    c for c in model.__mro__ if issubclass(c, BaseModel) and name in c.model_fields
                ][-1]
                found[f"{owner.__name__}.{name}"] = field.alias or name
    return found


def all_mappings() -> dict[str, str]:
    """Those of the whole source: of builds, settings and every kind of part."""
    return mappings(BuildSource, Site, *KINDS.values())


def sources() -> Sources:
    """A tiny workspace that writes every mapping at least once."""
    made = Sources()
    board = made.shelf["bench.yaml"]["board-wren"]
    made.shelf["bench.yaml"]["board-wren"] = board | {
        "pads": {"5V": {"role": "supply", "rail": "5V"}, "GND": {"role": "ground"}},
        "sockets": {"J1": {"contacts": ["5V", "GND"]}},
        "rails": {"5V": {"volts": "5 V", "limit": "1 A"}},
    }
    pads = {"5V": {"role": "draws"}, "GND": {"role": "ground"}}
    camera = {"kind": "camera", "name": "Wren camera", "mass": "2 g", "pads": pads}
    made.shelf["bench.yaml"]["camera-wren"] = camera | {
        "sockets": {"J1": {"contacts": ["5V", "GND"]}}
    }
    wren = made.builds["wren"]
    wren["parts"]["camera"] = {"use": "camera-wren"}
    wren["plugs"] = [{"from": "board.J1", "to": "camera.J1", "cable": {"5V": "5V", "GND": "GND"}}]
    motors = {str(n): n for n in range(1, 5)}
    corners = dict(
        zip(motors, ("rear right", "front right", "rear left", "front left"), strict=True)
    )
    turns = {n: "clockwise" if n in "14" else "counter-clockwise" for n in motors}
    wren["setup"] = {"rotation": {"corners": corners, "turns": turns, "outputs": {"1": "1"}}}
    middles = (
        "-30 mm, -30 mm, 0 mm",
        "30 mm, -30 mm, 0 mm",
        "-30 mm, 30 mm, 0 mm",
        "30 mm, 30 mm, 0 mm",
    )
    made.shelf["air.yaml"]["frame-wren"]["motors"] = dict(zip(motors, middles, strict=True))
    esc = {"kind": "speed-controller", "name": "Wren drive board", "mass": "3 g"}
    made.shelf["bench.yaml"]["esc-wren"] = esc | {"channel_corners": dict(corners)}
    made.shelf["bench.yaml"]["cable-wren"] = {
        "kind": "cable",
        "name": "Wren cable",
        "lies": {"5V": "5V", "GND": "GND"},
    }
    wren["changes"] = [{"date": "2026-05-01", "text": "Lighter", "was": {"mass/dry": "99.0 g"}}]
    made.site["bands"] = {"weir": {"1": "5800 MHz"}}
    made.site["scales"] = {"pocket": {"step": "0.1 g", "calibration": "0.2 %"}}
    return made


def places(trees: Mapping[str, Any]) -> dict[str, Place]:
    """One written place of each mapping, by class and field. `Shelf` is a shelf file itself."""
    found = {"Shelf": Place("Shelf", next(f for f in trees if "/shelf/" in f), ())}
    by_key: dict[str, list[str]] = {}
    for name, key in all_mappings().items():
        by_key.setdefault(key, []).append(name)

    def walk(tree: Any, file: str, path: tuple[str | int, ...]) -> None:
        children = (
            tree.items()
            if isinstance(tree, dict)
            else enumerate(tree)
            if isinstance(tree, list)
            else ()
        )
        for step, child in children:
            for name in by_key.get(str(step), ()) if isinstance(child, dict) and child else ():
                found.setdefault(name, Place(name, file, (*path, step)))
            walk(child, file, (*path, step))

    for file, tree in trees.items():
        walk(tree, file, ())
    return found


def with_key(tree: Any, path: tuple[str | int, ...], names: tuple[str, ...]) -> Any:
    """A copy of a tree in which the mapping at a path has these names too, each with a copy of its
    first value.
    """
    made = deepcopy(tree)
    mapping = made
    for step in path:
        mapping = mapping[step]
    first = next(iter(mapping.values()))
    for name in names:
        mapping.setdefault(name, deepcopy(first))
    return made
