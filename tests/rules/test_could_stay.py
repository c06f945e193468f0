"""Which parts and packs of one build would fit another, by the rules of fit (the rules have their own sources)."""

from dataclasses import replace

from builder.pipeline.check import Checked, judged_alone
from builder.rules.could_stay import FITS_BY, MOST, Stay, could_stay, packs_could_stay
from builder.rules.find_rules import all_rules


def test_every_rule_that_decides_a_fit_is_there() -> None:
    known = {r.code for r in all_rules()}
    assert {code for rules in FITS_BY.values() for code, _ in rules} <= known


def test_the_older_motors_fit_the_variant_and_the_rules_say_by_what(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["dipper-light"]
    (stay,) = could_stay(a.build, b.build, b.verdict)
    assert (stay.key, stay.fits, stay.lost, stay.new) == ("motor", True, (), ())
    assert set(stay.passed) >= {"hole pattern", "shaft", "cells"}


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
    assert "hole pattern" not in stay.passed
    assert "hole pattern of motor" in stay.lacking


def test_packs_are_judged_by_connector_and_cells(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["redshank"]
    stays = packs_could_stay(a.build, b.build, b.verdict)
    assert {s.key for s in stays} == {f"pack {k}" for k in a.build.packs}
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


def test_a_pack_is_judged_by_what_it_is_asked_for(demo: Checked) -> None:
    """The old pack is marked for 50 A and is asked for more on either aircraft."""
    a, b = demo.sheets["redshank"], demo.sheets["curlew"]
    old = {s.key: s for s in packs_could_stay(a.build, b.build, b.verdict)}["pack old"]
    assert (old.answer, [f.code for f in old.new]) == ("no", ["pack/discharge-limit"])


def test_a_pack_of_other_cells_than_landing_volts_are_set_for_is_not_called_right(demo: Checked) -> None:
    """Curlew lands at 3.0 V a cell, which lithium-ion bears; lithium-polymer swells there (common practice, no source)."""
    a, b = demo.sheets["redshank"], demo.sheets["curlew"]
    stays = {s.key: s for s in packs_could_stay(a.build, b.build, b.verdict)}
    assert stays["pack bank"].answer == "not known"
    assert any("landing volts" in x and "lithium-ion" in x for x in stays["pack bank"].lacking)
    back = packs_could_stay(demo.sheets["dipper"].build, a.build, a.verdict)
    assert not any("landing volts" in x for s in back for x in s.lacking)
