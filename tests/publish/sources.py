"""The sources of a tiny workspace as trees that a test edits, breaks and mends, and writes as
files.
"""

from dataclasses import dataclass, field
from pathlib import Path
from shutil import rmtree
from typing import Any

import yaml

from builder.options import PublishOptions

Tree = dict[str, Any]
_DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10"><rect width="{}"'
    ' height="5"/></svg>'
)


def first_shelf() -> dict[str, dict[str, Tree]]:
    """Two files of parts, small enough that a publish takes a tenth of a second."""
    motor: Tree = {
        "kind": "motor",
        "name": "Wren motor",
        "mass": {"maker": "4.1 g"},
        "alternatives": ["motor-tit"],
    }
    price = {"each": "7.50 EUR", "seen": "2026-09-01"}
    pack: Tree = {
        "kind": "pack",
        "name": "Wren pack",
        "mass": {"measured": "15.5 g"},
        "cells": "2S",
    }
    return {
        "air.yaml": {
            "frame-wren": {
                "kind": "frame",
                "name": "Wren frame",
                "mass": {"measured": "12.4 g"},
                "disc_max": "60 mm",
            },
            "motor-wren": motor | {"price": price},
            "motor-tit": (
                motor | {"name": "Tit motor", "alternatives": [], "mass": {"measured": "3.2 g"}}
            ),
            "prop-wren": {
                "kind": "propeller",
                "name": "Wren propeller",
                "diameter": "50 mm",
                "blades": 3,
            },
            "prop-large": {
                "kind": "propeller",
                "name": "Large propeller",
                "diameter": "76 mm",
                "blades": 2,
            },
        },
        "bench.yaml": {
            "board-wren": {
                "kind": "flight-controller",
                "name": "Wren board",
                "mass": {"measured": "5.5 g"},
            },
            "pack-wren": pack | {"capacity": "300 mAh"},
            "pack-tit": (
                pack | {"name": "Tit pack", "capacity": "250 mAh", "mass": {"measured": "12.0 g"}}
            ),
        },
    }


def first_build(title: str) -> Tree:
    """One build that uses most of the shelf."""
    return {
        "title": title,
        "revised": "2026-10-01",
        "parts": {
            "frame": {"use": "frame-wren"},
            "motor": {"use": "motor-wren", "count": 4},
            "propeller": {"use": "prop-wren", "count": 4},
            "board": {"use": "board-wren"},
        },
        "packs": {"small": {"use": "pack-wren"}},
        "changes": [{"date": "2026-10-01", "text": "Begun."}],
    }


def _first_site() -> Tree:
    limit = {
        "name": "60 g class",
        "mass": "60 g",
        "strict": "yes",
        "source": "invented",
        "dated": "2026-01-01",
    }
    return {
        "title": "Wren sheets",
        "address": "https://wren.example/",
        "currency": "EUR",
        "as_of": "2026-11-01",
        "limits": [limit],
        "compare": [["wren", "robin"]],
    }


@dataclass
class Sources:
    """What lies in the workspace, apart from `site/`. `broken` files have text in front that is no
    YAML.
    """

    builds: dict[str, Tree] = field(
        default_factory=lambda: {"wren": first_build("Wren"), "robin": first_build("Robin")}
    )
    shelf: dict[str, dict[str, Tree]] = field(default_factory=first_shelf)
    site: Tree = field(default_factory=_first_site)
    pictures: dict[str, int] = field(default_factory=dict)
    templates: dict[str, str] = field(default_factory=dict)
    comments: dict[str, int] = field(default_factory=dict)
    broken: set[str] = field(default_factory=set)
    draft: bool = False
    base: str = ""

    def parts(self) -> list[tuple[str, str]]:
        """File and name of every part of the shelf."""
        return [(file, name) for file, parts in sorted(self.shelf.items()) for name in parts]

    def files(self) -> dict[str, bytes]:
        """Every source file by its path in the workspace."""
        trees = {"builds/site.yaml": self.site}
        trees |= {f"builds/{name}/build.yaml": tree for name, tree in self.builds.items()}
        trees |= {f"builds/shelf/{name}": tree for name, tree in self.shelf.items()}
        files = {path: self._text(path, tree).encode() for path, tree in trees.items()}
        files |= {
            f"builds/{b}/top.svg": _DRAWING.format(n).encode() for b, n in self.pictures.items()
        }
        return files | {f"templates/{name}": text.encode() for name, text in self.templates.items()}

    def _text(self, path: str, tree: Tree) -> str:
        head = "a: [\n" if path in self.broken else ""
        return f"{head}# note {self.comments.get(path, 0)}\n" + yaml.safe_dump(
            tree, sort_keys=False, width=200
        )

    def write(self, workspace: Path) -> None:
        """Makes the workspace hold these files; `site/` is left alone."""
        for folder in ("builds", "templates"):
            rmtree(workspace / folder, ignore_errors=True)
        for path, content in self.files().items():
            target = workspace / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)

    def options(self, workspace: Path, *, pdf: bool = False, workers: int = 1) -> PublishOptions:
        """How it is published."""
        return PublishOptions(workspace, self.draft, pdf, workers, self.base)
