"""Which figure and which rule reads each field of the source, as it was recorded, and which rule
answers otherwise when it is set otherwise: two files of the package, made by
`python -m tests.benchmarks.field_readers` and `field_effects`.
"""

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType

READERS = Path(__file__).resolve().with_name("field_readers.json")
EFFECTS = READERS.with_name("field_effects.json")


@cache
def readers() -> Mapping[str, tuple[str, ...]]:
    """Rules by code and rooms of figures that read each field, by `Class.key`."""
    found = json.loads(READERS.read_text("utf-8"))
    return MappingProxyType({field: tuple(who) for field, who in found.items()})


@cache
def effects() -> Mapping[str, tuple[str, ...]]:
    """Rules by code whose answer changed when a field was set otherwise, by `Class.key`; made by
    `python -m tests.benchmarks.field_effects --write`.
    """
    found = json.loads(EFFECTS.read_text("utf-8"))
    return MappingProxyType({field: tuple(who) for field, who in found.items()})
