"""What 'This does not work' asks for: nothing before all is unplugged and empty, no contact that lies
under a sleeve by then, no probe held by hand between narrow contacts under power.

What is sleeved is read off the steps as they are printed, room beside a contact off the part's file.
"""

import re
from typing import Any

import pytest

from builder.compute.order.work_order import Cycle
from builder.pages.bench.script_words import WORDS
from builder.pages.bench.trouble import trouble_data, trouble_of
from builder.pages.sheet_input import SheetInput
from builder.pipeline.check import Checked
from tests.compute.bench_meter import BEEP, VOLTS

NAMES = ("dipper", "curlew", "pipit", "redshank", "dipper-light", "turnstone")
EMPTY = r"plus to minus under 1 V"


def _readings(sheet: SheetInput) -> list[str]:
    data: dict[str, Any] = dict(trouble_data(sheet, trouble_of(sheet)))
    return list(data["readings"])


def _sleeved_names(sheet: SheetInput) -> list[str]:
    plan = sheet.results.order
    assert not isinstance(plan, Cycle)
    texts = " ".join(str(step.text) for step in plan.steps)
    return re.findall(r"Draw the sleeve over ([^;]+?) and shrink it", texts)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_read_or_touched_before_all_is_unplugged(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    readings = _readings(sheet)
    assert readings
    for words in readings:
        if BEEP.search(words):
            assert re.match(rf"Everything unplugged, {EMPTY}: ", words), words
        else:
            assert words.endswith(f"everything unplugged, {EMPTY}."), words
    first = str(trouble_data(sheet, trouble_of(sheet))["first"])
    assert re.search(r"Unplug every battery, the supply and USB\. Wait until .* under 1 V", first)
    assert re.match(rf"Everything unplugged, {EMPTY}: look", WORDS["look"])


@pytest.mark.parametrize("name", NAMES)
def test_no_contact_under_a_sleeve_is_asked_for(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    names = _sleeved_names(sheet)
    keys = {key for key, f in sheet.build.parts.items() if f.part.name in names}
    assert keys or not names
    found = [m.groups() for words in _readings(sheet) for m in BEEP.finditer(words)]
    found += [m.groups() for words in _readings(sheet) for m in VOLTS.finditer(words)]
    assert found
    asked = {contact.split(".")[0] for groups in found for contact in groups}
    assert not asked & keys


@pytest.mark.parametrize("name", NAMES)
def test_a_probe_between_narrow_contacts_is_fixed_without_power(demo: Checked, name: str) -> None:
    sheet = demo.sheets[name]
    for words in _readings(sheet):
        probe = VOLTS.search(words)
        if probe is None:
            continue
        part, pad = probe[1].split(".")[0], probe[1].split(".")[-1]
        gap = sheet.build.parts[part].part.pads[pad].gap
        fixed = f"Fix the red probe on {probe[1]}" in words
        assert fixed == (gap is None or gap.value < 0.001), words
        if fixed:
            assert words.index("Fix the red probe") < words.index("Put power on")
