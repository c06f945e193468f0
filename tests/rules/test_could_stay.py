"""Which parts and packs of one build would fit another, by the rules of fit (the rules have their own sources)."""

from dataclasses import replace

from builder.pipeline.check import Checked, judged_alone
from builder.rules.could_stay import FITS_BY, MOST, could_stay, packs_could_stay
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
    stays = packs_could_stay(a.build, b.build, b.results)
    assert {s.key for s in stays} == {f"pack {k}" for k in a.build.packs}
    assert {f.code for s in stays for f in s.new} >= {"fit/pack-connector-unlike"}
    assert not any(s.fits for s in stays)


def test_packs_that_both_have_are_not_asked(demo: Checked) -> None:
    a, b = demo.sheets["dipper"], demo.sheets["dipper-light"]
    assert packs_could_stay(a.build, b.build, b.results) == ()


def test_a_build_beside_itself_has_nothing_to_keep(demo: Checked) -> None:
    sheet = judged_alone(demo.workspace.builds["pipit"])
    assert could_stay(sheet.build, sheet.build, sheet.verdict) == ()
