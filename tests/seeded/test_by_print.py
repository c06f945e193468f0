"""Seeded faults on boards that are known by their prints only: each is still found, or it is said
that it could not be judged; no rule of a danger passes.
"""

from pathlib import Path
from typing import Any

import pytest
import yaml

from builder.diagnostics.finding import Collector
from builder.diagnostics.where import Where
from builder.model.read.shared_lines import each_contact
from builder.model.read.shelf import read_part
from builder.rules.judge import judge
from tests.seeded.seeds import Seed, _case, _write, _write_seed, seeds

pytestmark = pytest.mark.slow  # takes long
_DANGERS = (
    "wiring/supply-to-ground",
    "wiring/polarity-reversed",
    "wiring/plug-joins-unlike",
    "power/load-across-part",
)
_SEEDS = [s for s in seeds() if s.finds in _DANGERS][::6]


def _by_print(name: str, entry: dict[str, Any]) -> dict[str, Any]:
    """The part with a line a contact, the role left out wherever its print says the same."""
    whole = each_contact(entry, Where("shelf/x.yaml", (name,)))[0]
    sure = read_part(name, whole, Where("shelf/x.yaml", (name,)), Collector())
    if sure is None or not sure.pads:
        return entry
    out = {**whole, "pads": {}}
    for pad, said in whole["pads"].items():
        left = {k: v for k, v in said.items() if k not in ("role", "assumed")}
        trial = {**whole, "pads": {pad: left}, "edges": {}, "sockets": {}}
        read = read_part(name, trial, Where("shelf/x.yaml", (name,)), Collector())
        same = read is not None and read.pads[pad].role == sure.pads[pad].role
        out["pads"][pad] = left if same else {k: v for k, v in said.items() if k != "assumed"}
    return out


@pytest.mark.parametrize("seed", _SEEDS, ids=lambda s: s.name)
def test_a_fault_on_boards_known_by_print_is_found_or_not_judged(
    seed: Seed, tmp_path: Path
) -> None:
    _write_seed(seed, tmp_path)
    for path in (tmp_path / "builds/shelf").glob("*.yaml"):
        shelf = yaml.load(path.read_text("utf-8"), yaml.BaseLoader)
        _write(path, {name: _by_print(name, entry) for name, entry in shelf.items()})
    case, mistakes = _case(tmp_path, seed.build)
    assert case is not None, mistakes
    prints = [p for f in case.build.parts.values() for p in f.part.pads.values() if p.assumed]
    assert len(prints) > 20
    answers = {a.rule.code: a for a in judge(case).answers}
    said = answers[seed.finds]
    assert said.findings or said.not_judged
    for code in _DANGERS[:3]:
        assert answers[code].answer in ("found", "not judged", "nothing to judge"), code
