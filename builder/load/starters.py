"""The builds that come with Benchleaf to start from, one a size, and the shelf that they are made
of. All invented.
"""

from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from builder.load.yaml_text import top_blocks

# Sizes by the propeller's diameter, as the trade speaks of them.
SIZES = ("2-inch", "3-inch", "5-inch", "7-inch", "10-inch")
ALSO_CALLED = MappingProxyType({"1.6-inch": "2-inch"})  # 40 mm: sold under both names
BARE = "bare"  # only what has to be filled in
_HERE = Path(__file__).resolve().parent.parent / "starters"


@dataclass(frozen=True)
class Starter:
    """The text of a build file, of the settings that go with it, and of each shelf file by its
    name.
    """

    build: str
    site: str
    shelf: dict[str, str]


def _shelf_folder() -> Path:
    """Inside the package when installed; in a checkout the demo workspace's own shelf."""
    inside = _HERE / "shelf"
    return inside if inside.is_dir() else _HERE.parent.parent / "builds" / "shelf"


def read_starter(size: str) -> Starter:
    """The starter of a size of SIZES, or the bare one, which has no shelf and invents nothing."""
    if size == BARE:
        build, site = (
            (_HERE / name).read_text("utf-8") for name in ("bare.yaml", "bare-site.yaml")
        )
        return Starter(build, site, {})
    files = (*_shelf_folder().glob("*.yaml"), *(_HERE / "more").glob("*.yaml"))
    shelf = {path.name: path.read_text("utf-8") for path in sorted(files)}
    build = (_HERE / f"{ALSO_CALLED.get(size, size)}.yaml").read_text("utf-8")
    return Starter(build, (_HERE / "site.yaml").read_text("utf-8"), shelf)


def shelf_entries(text: str, wanted: frozenset[str]) -> str:
    """The wanted entries of a shelf file with the comments above each; empty where it holds none of
    them.
    """
    _, found = top_blocks(text)
    return "".join(block.rstrip() + "\n\n" for name, block in found if name in wanted)


# The chapter that a new build begins with: it shows what a chapter can hold, and holds for any build.
FIRST_CHAPTER = """# Why this build

Write here why you build it, what you gave up for it, and what went wrong. Each file in this folder is a
chapter; the number before its name puts it in order. Delete this one if you do not want a guide.

## What you can write

- A number that stays true: `{figure:mass/dry}`. `benchleaf trace BUILD` lists them.
- The way to a step, or to a part: `[the dry fit](step:dry-fit)`, `[the motors](part:motor)`.
- A picture that lies in this folder, on a line of its own: `![what it shows](picture.jpg)`.

## What went wrong

Readers learn most from this one. Never write down a secret, an address or a serial number.
"""
