"""Which parts and packs of one build would fit another, by the rules of fit (the rules have their
own sources).
"""

import sys
from dataclasses import fields, replace
from pathlib import Path

import pytest

from builder.compute.compute import assemble, compute
from builder.compute.results import Results
from builder.model.build import Build, FittedPack
from builder.pipeline.check import Checked, judged_alone
from builder.rules import find_rules
from builder.rules.could_stay import MOST, Stay, could_stay, packs_could_stay, stays
from builder.rules.find_rules import all_rules
from builder.rules.judge import Verdict, judge
from builder.rules.judge_swap import judge_swap, rules_of_swaps
from builder.rules.rule import Case
from builder.rules.swap_facts import facts_lacking
from builder.rules.touched import touched

pytestmark = pytest.mark.slow  # takes long


def test_the_rules_that_a_swap_touches_come_from_the_register(demo: Checked) -> None:
    """What decides a fit by common practice is among them; no rule is named in the code."""
    parts = demo.sheets["dipper"].build.parts
    for key, codes in {
        "frame": {"fit/motor-pattern-missing", "fit/board-pattern-missing"},
        "motor": {"fit/motor-pattern-missing", "fit/bore-unlike-shaft", "power/motor-cells"},
        "propeller": {"fit/bore-unlike-shaft", "fit/mount-unlike", "fit/propeller-too-large"},
        "esc": {"fit/board-pattern-missing", "power/speed-controller-cells"},
        "camera": {"fit/camera-width-unlike", "power/volts-outside-accepted"},
        "video": {"fit/antenna-connector-unlike", "power/volts-outside-accepted"},
        "capacitor": {"power/capacitor-volts"},
    }.items():
        assert codes <= set(touched(parts[key].part)), key
    for name in ("could_stay.py", "touched.py"):
        text = (Path(find_rules.__file__).parent / name).read_text("utf-8")
        assert not [r.code for r in all_rules() if r.code in text]


def test_the_older_motors_fit_the_variant_and_the_rules_say_by_what(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["dipper-light"]
    (stay,) = could_stay(a.build, b.build, b.verdict)
    assert (stay.key, stay.fits, stay.lost, stay.new) == ("motor", True, (), ())
    assert set(stay.passed) >= {"pattern", "shaft", "cells"}


def test_a_propeller_with_another_bore_does_not_fit(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["redshank"]
    stays = {s.key: s for s in could_stay(a.build, b.build, b.verdict)}
    assert len(stays) <= MOST
    assert not stays["propeller"].fits
    assert stays["propeller"].new[0].code == "fit/bore-unlike-shaft"


def test_a_motor_without_its_holes_told_is_not_called_right(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["dipper-light"]
    fitted = a.build.parts["motor"]
    blank = replace(fitted, part=fitted.part.model_copy(update={"pattern": None}))
    entry = a.build.shelf[fitted.shelf]
    shelf = {**a.build.shelf, fitted.shelf: replace(entry, part=blank.part)}
    build = replace(a.build, parts={**a.build.parts, "motor": blank}, shelf=shelf)
    there = replace(b.build, shelf={k: v for k, v in b.build.shelf.items() if k != fitted.shelf})
    (stay,) = could_stay(build, there, b.verdict)
    assert "pattern" not in stay.passed
    assert "hole pattern of motor" in stay.lacking


def test_a_camera_on_a_rail_that_nobody_tells_the_limit_of_is_not_known(demo: Checked) -> None:
    """The old camera left the same fact open there, which makes the new one no safer."""
    a, b = demo.sheets["pipit"].build, demo.sheets["dipper"].build
    board = b.parts["controller"]
    rails = {k: r.model_copy(update={"limit": None}) for k, r in board.part.rails.items()}
    blind = board.part.model_copy(update={"rails": rails})
    parts = {**b.parts, "controller": replace(board, part=blind)}
    shelf = {**b.shelf, board.shelf: replace(b.shelf[board.shelf], part=blind)}
    there = replace(b, parts=parts, shelf=shelf)
    before = {s.key: s for s in could_stay(a, b, demo.sheets["dipper"].verdict)}
    after = could_stay(a, there, judge(Case(there, compute(there))))
    stay = {s.key: s for s in after}["camera"]
    assert (before["camera"].answer, stay.answer) == ("yes", "not known")
    assert any("limit of controller" in m for m in stay.lacking)


def test_a_part_that_says_two_things_of_itself_is_not_called_right(demo: Checked) -> None:
    """A frame of carbon that is said not to conduct: a bare pad on it is a short wherever it is."""
    sheet = demo.sheets["dipper"]
    told = sheet.build.parts["frame"]
    false = told.part.model_copy(update={"conducts": False})
    entry = replace(sheet.build.shelf[told.shelf], part=false)
    fitted = replace(
        told, part=false, shelf="other", use=told.use.model_copy(update={"use": "other"})
    )
    a = replace(
        sheet.build,
        parts={**sheet.build.parts, "frame": fitted},
        shelf={**sheet.build.shelf, "other": entry},
    )
    (stay,) = could_stay(a, sheet.build, sheet.verdict)
    assert stay.answer == "no"
    assert [f.code for f in stay.new] == ["data/part-disagrees"]


def test_packs_are_judged_by_connector_and_cells(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["redshank"]
    stays = packs_could_stay(a.build, b.build, b.verdict)
    assert {s.key for s in stays} == {f"battery {k}" for k in a.build.packs}
    assert {f.code for s in stays for f in s.new} >= {"fit/pack-connector-unlike"}
    assert not any(s.fits for s in stays)


def test_packs_that_both_have_are_not_asked(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["dipper-light"]
    assert packs_could_stay(a.build, b.build, b.verdict) == ()


def test_a_build_beside_itself_has_nothing_to_keep(demo: Checked) -> None:
    sheet = judged_alone(demo.workspace.builds["pipit"])
    assert could_stay(sheet.build, sheet.build, sheet.verdict) == ()


def _answers(demo: Checked, first: str, second: str) -> dict[str, Stay]:
    a, b = demo.sheets[first], demo.sheets[second]
    return {s.key: s for s in could_stay(a.build, b.build, b.verdict)}


def test_a_cable_is_judged_by_its_own_lie_wherever_it_is_tried(demo: Checked) -> None:
    """The word beside the plug is of the cable that was there."""
    for first, second in (("dipper", "curlew"), ("redshank", "dipper")):
        stay = _answers(demo, first, second)["harness"]
        assert stay.answer == "no"
        assert "wiring/plug-joins-unlike" in {f.code for f in stay.new}


def test_a_cable_whose_lie_nobody_tells_is_not_known(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["curlew"]
    entry = a.build.shelf["harness-8-40"]
    blind = replace(entry, part=entry.part.model_copy(update={"lies": None}))
    parts = {**a.build.parts, "harness": replace(a.build.parts["harness"], part=blind.part)}
    first = replace(a.build, parts=parts, shelf={**a.build.shelf, "harness-8-40": blind})
    stay = {s.key: s for s in could_stay(first, b.build, b.verdict)}["harness"]
    assert stay.answer == "not known"
    assert any("how the cable" in m and "lies" in m for m in stay.lacking)


def test_a_wired_camera_where_only_a_ribbon_is_does_not_fit(demo: Checked) -> None:
    stay = _answers(demo, "redshank", "curlew")["camera"]
    assert (stay.answer, stay.lost) == ("no", ("nothing feeds camera.5V",))


def test_a_propeller_that_was_on_no_bench_is_not_known(demo: Checked) -> None:
    stay = _answers(demo, "redshank", "curlew")["propeller"]
    assert (stay.answer, stay.fits, stay.new) == ("not known", False, ())
    assert any("bench table" in m for m in stay.lacking)


def test_wires_that_the_part_has_no_contact_for_are_named(demo: Checked) -> None:
    stay = _answers(demo, "curlew", "redshank")["camera"]
    assert stay.answer == "no"
    assert "wire camera.5V to controller.5V2" in stay.lost


# straps lie where they are for the battery that is there: one of another size is held by none of them
OF_STRAPS = "fit/strap-in-the-way"


def test_a_pack_is_judged_by_what_it_is_asked_for(demo: Checked) -> None:
    """The old pack is marked for 50 A and is asked for more on either aircraft."""
    a, b = demo.sheets["redshank"], demo.sheets["curlew"]
    old = {s.key: s for s in packs_could_stay(a.build, b.build, b.verdict)}["battery old"]
    new = [f.code for f in old.new if f.code != OF_STRAPS]
    assert (old.answer, new) == ("no", ["pack/discharge-limit"])


def test_a_new_battery_has_no_age_that_would_be_missing(demo: Checked) -> None:
    """How often the owned one was charged says nothing of another, and lacks nothing of it."""
    sheet = demo.sheets["dipper"]
    aged = "pack/worn-out"
    assert next(a for a in sheet.verdict.answers if a.rule.code == aged).passed
    tried = replace(sheet.build, packs={k: _unused(p) for k, p in sheet.build.packs.items()})
    after = judge_swap(tried)[1]
    assert next(a for a in after.answers if a.rule.code == aged).answer == "nothing to judge"
    assert not any(aged in x for x in facts_lacking(sheet.verdict, after, "", ""))


def _unused(pack: FittedPack) -> FittedPack:
    return replace(pack, part=pack.part.model_copy(update={"bought": None, "cycles": None}))


def test_a_pack_of_other_cells_than_landing_volts_are_set_for_is_not_called_right(
    demo: Checked,
) -> None:
    """Curlew lands at 3.0 V a cell, which lithium-ion bears; lithium-polymer swells there (common
    practice, no source).
    """
    a, b = demo.sheets["redshank"], demo.sheets["curlew"]
    stays = {s.key: s for s in packs_could_stay(a.build, b.build, b.verdict)}
    assert [f.code for f in stays["battery bank"].new if f.code != OF_STRAPS] == []
    assert not stays["battery bank"].fits
    assert any("landing volts" in x and "lithium-ion" in x for x in stays["battery bank"].lacking)
    back = packs_could_stay(demo.sheets["dipper"].build, a.build, a.verdict)
    assert not any("landing volts" in x for s in back for x in s.lacking)


def test_a_swap_is_judged_as_by_all_rules_on_all_results(
    demo: Checked, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is left out for swaps (order of work, money, limits) changes no answer of the demo's
    pairs, either way.
    """
    pairs = (("dipper", "redshank"), ("redshank", "curlew"), ("curlew", "pipit"))
    asked = [(demo.sheets[x], demo.sheets[y]) for a, b in pairs for x, y in ((a, b), (b, a))]
    told = [_plain(stays(a.build, b.build, b.verdict)) for a, b in asked]

    def in_full(build: Build) -> tuple[Results, Verdict]:
        results = compute(build)
        return results, judge(Case(build, results))

    monkeypatch.setattr(sys.modules["builder.rules.could_stay"], "judge_swap", in_full)
    assert told == [_plain(stays(a.build, b.build, b.verdict)) for a, b in asked]
    assert any(told)


def _plain(found: tuple[Stay, ...]) -> list[tuple[object, ...]]:
    return [
        (
            s.key,
            s.label,
            s.lost,
            [(f.code, f.message) for f in s.new],
            s.passed,
            s.lacking,
            s.answer,
        )
        for s in found
    ]


def test_what_is_computed_of_a_swap_is_what_compute_gives(demo: Checked) -> None:
    build = demo.sheets["dipper"].build
    short, whole = assemble(build), compute(build)
    for field in fields(short):
        assert repr(getattr(short, field.name)) == repr(getattr(whole, field.name)), field.name


def test_rules_that_are_left_out_for_swaps_are_those_that_read_more_than_fit(demo: Checked) -> None:
    """Any other rule can be judged without; these raise, so none of them can be asked by mistake."""
    codes = {r.code for r in all_rules()}
    left_out = codes - {r.code for r in rules_of_swaps()}
    of_order = {
        "bench/coated-too-early",
        "bench/order-contradicts",
        "bench/step-without-neighbour",
        "bench/supply-too-small",
        "bench/tool-missing",
    }
    assert of_order <= left_out
    assert left_out - of_order == {c for c in codes if c.split("/")[0] in ("data", "law")}
    build = demo.sheets["dipper"].build
    with pytest.raises(TypeError, match="without order of work"):
        Case(build, assemble(build)).whole  # noqa: B018 - that it raises is the point
    of_law = {"law/over-mass-limit", "law/over-speed-limit"}
    files = Path(find_rules.__file__).parent.rglob("*.py")
    reading = {
        f"{p.parent.name}/{p.stem.replace('_', '-')}"
        for p in files
        if "case.whole" in p.read_text("utf-8")
    }
    of_data = {"data/price-missing", "data/price-old", "data/reading-out-of-bounds"}
    assert reading == {*of_order, *of_data, *of_law}
