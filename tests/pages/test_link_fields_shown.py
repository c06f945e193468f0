"""What a build says of its links stands on its setup page: each field is given another value, and that
value is read there.
"""

import re

import pytest

from builder.pages.sections.radio import radio_section
from builder.pipeline.check import Checked
from tests.workspace_edits import judged_after

CHANNEL = "  channel: {band: weir, number: 1, power: 15 mW, range: 40 m}\n"
CONTROL = (
    "  control: {band: control at 2.4 GHz, power: 40 mW, gain: 2 dBi, polarisation: linear,"
    " range: 60 m, frequency: 2440 MHz}\n"
)
OTHER_CHANNEL = "  channel: {band: weir, number: 3, power: 11 mW, range: 47 m}\n"
OTHER_CONTROL = (
    "  control: {band: the lower half, power: 33 mW, gain: 3.7 dBi, polarisation: left-hand,"
    " range: 73 m, frequency: 2447 MHz, rate: 77 packets a second}\n"
)


def _said(checked: Checked) -> str:
    section = radio_section(checked.sheets["pipit"])
    assert section is not None
    return " ".join(re.findall(r"'([^']*)'", repr(section.blocks)))


@pytest.fixture(scope="module")
def changed(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The radio section of a build that says other things of its links."""
    place = tmp_path_factory.mktemp("links")
    before, after = CHANNEL + CONTROL, OTHER_CHANNEL + OTHER_CONTROL
    return _said(judged_after(place, "pipit", "pipit/build.yaml", before, after))


@pytest.mark.parametrize(
    "shown",
    [
        "weir 3",
        "11.0",
        "47",
        "the lower half",
        "33.0",
        "3.7",
        "left-hand",
        "73",
        "2447",
        "77 packets",
    ],
)
def test_a_field_of_a_link_is_read_on_the_page(demo: Checked, changed: str, shown: str) -> None:
    whole = rf"(?<![\d.]){re.escape(shown)}(?![\d.])"
    assert re.search(whole, changed), changed
    assert not re.search(whole, _said(demo)), "nothing to see: it is there before the change"
