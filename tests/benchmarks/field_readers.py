"""Records which figure and which rule reads each field of the source, and writes it down for the
field reference: `python -m tests.benchmarks.field_readers`. With the codes of rules only their
cases are judged besides the demo builds, and what they read is added to what was written before:
`python -m tests.benchmarks.field_readers pack/charger-cells`, seconds in place of minutes.

The demo builds and the cases of tests/rules are computed and judged while every read of a field of
the model is watched. A read counts for the file of `compute` or `rules` that asked; what the model's
own properties read counts for whoever asked them. Pages do not count: a page that lists all fields
is no reader.
"""

import json
import sys
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path
from types import FrameType
from typing import Any

import builder
import builder.model.source.build_source
from builder.compute.compute import compute
from builder.load.field_readers import READERS, readers
from builder.load.files import load
from builder.model.kinds import KINDS
from builder.model.read.workspace import read_workspace
from builder.model.values.base import Frozen
from builder.rules.field_register import owner_of
from builder.rules.judge import judge
from builder.rules.rule import Case
from tests.rules.rule_files import judged, rule_cases

ROOT = Path(builder.__file__).parent
_INSIDE = f"{ROOT}/"
Readers = dict[str, list[str]]


# Read by code that no demo build and no case of tests/rules comes to.
ELSEWHERE = {
    "Flight.landed_at": ["compute/flight"],
    "Flight.until_alarm": ["compute/flight"],
    "Price.pack": ["compute/money"],
    "Radio.video_sensitivity": ["compute/radio"],
    "SatelliteReceiver.keepout": ["fit/compass-near-leads"],
    "Scale.calibration": ["compute/weight"],
    "Scale.repeatability": ["compute/weight"],
    "Weighed.parts": ["compute/weight"],
}


def _classes(base: type[Frozen]) -> Iterator[type[Frozen]]:
    for each in base.__subclasses__():
        yield each
        yield from _classes(each)


def _asker(frame: FrameType | None) -> str:
    """The file, relative to the package, that a read is for; '' for one outside of it."""
    while frame is not None:
        file = frame.f_code.co_filename
        if file.startswith(_INSIDE) and not file.startswith(f"{_INSIDE}model/"):
            return file.removeprefix(_INSIDE)
        frame = frame.f_back
    return ""


def _reader(file: str) -> str:
    """A rule by its code, a figure by its room; '' for anything else."""
    stage, _, rest = file.removesuffix(".py").partition("/")
    if stage == "rules" and "/_" in rest:
        return f"rules/{rest.split('/')[0]}"  # what rules of a family share
    if stage == "rules" and "/" in rest:
        return rest.replace("_", "-")
    return f"compute/{rest.split('/')[0]}" if stage == "compute" and "/" in rest else ""


def added(before: Mapping[str, Sequence[str]], new: Mapping[str, Sequence[str]]) -> Readers:
    """What was written before and what is new, by field: nothing is taken away."""
    fields = sorted({*before, *new})
    return {f: sorted({*before.get(f, ()), *new.get(f, ())}) for f in fields}


def recorded(workspace: Path, codes: Collection[str] = ()) -> Readers:
    """Readers of each field that is read at all, by `Class.key`; of the rules' cases only those of
    `codes`, where any are named.
    """
    found: defaultdict[str, set[str]] = defaultdict(set)
    fields = {c: frozenset(c.model_fields) for c in _classes(Frozen)}
    plain = Frozen.__getattribute__

    def watched(self: Frozen, name: str) -> Any:
        cls = type(self)
        if name in fields.get(cls, ()):
            reader = _reader(_asker(sys._getframe(1)))
            if reader:
                found[owner_of(cls, name)].add(reader)
        return plain(self, name)

    Frozen.__getattribute__ = watched  # type: ignore[method-assign, assignment]
    try:
        model = read_workspace(load(workspace))
        for name in model.builds:
            build = model.builds[name]
            judge(Case(build, compute(build)))
        for case in (c for c in rule_cases() if not codes or c.rule in codes):
            judged(case.given, case.rule)
    finally:
        Frozen.__getattribute__ = plain  # type: ignore[method-assign]
    for field, who in ELSEWHERE.items():
        found[field].update(who)
    return {field: sorted(readers) for field, readers in sorted(found.items())}


if __name__ == "__main__":
    assert KINDS
    named = sys.argv[1:]
    unknown = {*named} - {c.rule for c in rule_cases()}
    if unknown:
        sys.exit(f"No file of cases in tests/rules: {', '.join(sorted(unknown))}")
    new = recorded(ROOT.parent, named)
    told = added(readers(), new) if named else new
    READERS.write_text(json.dumps(told, indent=0) + "\n", "utf-8")
