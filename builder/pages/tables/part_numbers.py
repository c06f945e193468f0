"""The numbers of the parts: those of the parts table, which drawings show in their balloons."""

from collections.abc import Iterator

from builder.model.build import Build

GROUPS = (
    "frame",
    "propulsion",
    "electronics",
    "video",
    "radio",
    "hardware",
    "other",
    "payload",
    "pack",
    "consumable",
    "tool",
    "ground",
)


def groups_of(build: Build) -> tuple[str, ...]:
    """The groups in the order of the table: the known ones, then those of one's own."""
    own = {f.part.group for f in build.parts.values()} - set(GROUPS)
    return (*GROUPS, *sorted(own))


def pack_key(key: str) -> str:
    """How a battery is told from a part of the same name."""
    return f"battery {key}"


def _in_order(build: Build) -> Iterator[str]:
    for group in groups_of(build):
        yield from (f.key for f in build.parts.values() if f.part.group == group)
        if group == "pack":
            yield from (pack_key(k) for k in build.packs)


def part_numbers(build: Build) -> dict[str, int]:
    """The number of each part by its key, of each battery by `pack_key`: from 1, down the table."""
    return {key: i for i, key in enumerate(_in_order(build), 1)}


def part_anchor(number: int) -> str:
    """The anchor of a part's row."""
    return f"part-{number}"
