"""Sentences with figures in them: rounded as on pages, with value, unit and key kept.

Roundings are worked out by hand; half away from zero is ISO 80000-1, annex B (rule B).
"""

import json
import pickle

import pytest

from builder.compute.figures.figure import Unknown, leaf
from builder.compute.figures.sums import total
from builder.diagnostics.finding import Finding, Severity, as_plain, from_plain
from builder.diagnostics.sentence import Amount, Sentence, amounts_of, joined, pieces_of
from builder.diagnostics.show import as_json
from builder.diagnostics.where import SourcePlace, Where
from builder.pages.numbers import number
from builder.rules.say import chance, figure, given, made, rate, say, share

CURRENT = leaf("shelf/x/burst", "Current", 36.405, "A")
SENTENCE = say(
    "It takes {} from {}, {} at most.", CURRENT, "{a}", given(35.0, "A", "shelf/y/discharge")
)


def test_a_sentence_is_a_text_that_keeps_its_figures() -> None:
    assert SENTENCE == "It takes 36.41 A from {a}, 35 A at most."
    assert amounts_of(SENTENCE) == (
        Amount(36.405, "A", "shelf/x/burst", "36.41", "A"),
        Amount(35.0, "A", "shelf/y/discharge", "35", "A"),
    )
    assert amounts_of("plain 3 A") == () and pieces_of("plain") == ("plain",)


def test_a_figure_reads_as_on_a_page() -> None:
    for of in (
        CURRENT,
        leaf("k/m", "Mass", 0.24965, "kg"),
        leaf("k/c", "Charge", 5400.0, "C"),
        leaf("k/s", "s", 30, "s"),
    ):
        shown = number(of)
        assert (figure(of).shown, figure(of).shown_unit) == (shown.value, shown.unit)


def test_a_sum_that_leaves_something_out_says_so() -> None:
    lacking = total(
        "b/mass", "Mass", "kg", [leaf("k", "one", 0.27, "kg"), Unknown("l", "two", ("two",))]
    )
    assert say("It weighs {}.", figure(lacking, 2)) == "It weighs at least 270.00 g."


@pytest.mark.parametrize(
    ("amount", "text"),
    [
        (made(0.0062, "m"), "6.2 mm"),
        (made(1.5707963267948966, "rad"), "90°"),
        (given(0.06, "m"), "60 mm"),
        (given(1047.1975511965977, "rad/s"), "10000 rpm"),
        (given(5.8005e9, "Hz"), "5800.5 MHz"),
        (given(10.0, "s"), "10 s"),
        (share(0.0985, decimals=1), "9.9 %"),
        (rate(12.0), "12.0C"),
        (rate(5.0, written=True), "5C"),
        (chance(leaf("p", "p", 0.9999, "1")), "over 99 %"),
    ],
)
def test_amounts(amount: Amount, text: str) -> None:
    assert amount.text == text


def test_places_and_things_are_as_many() -> None:
    with pytest.raises(ValueError, match="1 things are said in 2 places"):
        say("{} and {}", CURRENT)


def test_sentences_stand_within_sentences() -> None:
    whole = say("So: {}", joined(", ", [SENTENCE, "words"]))
    assert whole == f"So: {SENTENCE}, words" and len(amounts_of(whole)) == 2


def _finding() -> Finding:
    return Finding("x/y", Severity.REMARK, SENTENCE, say("Set {}.", given(14.8, "V")))


def test_a_finding_keeps_its_figures_in_a_file_and_between_processes() -> None:
    kept = from_plain(json.loads(json.dumps(as_plain(_finding()))))
    for back in (kept, pickle.loads(pickle.dumps(_finding()))):
        assert back == _finding()
        assert isinstance(back.message, Sentence) and amounts_of(back.message) == amounts_of(
            SENTENCE
        )
        assert amounts_of(back.hint)[0].text == "14.8 V"


def test_a_kept_figure_has_to_stand_in_its_text() -> None:
    plain = as_plain(_finding())
    plain[2] = "It takes something else."
    with pytest.raises(ValueError):
        from_plain(plain)


class _NoFiles:
    def locate(self, where: Where) -> SourcePlace | None:
        return None


def test_the_list_for_programs_gives_value_unit_and_key() -> None:
    (record,) = json.loads(as_json([_finding()], _NoFiles()))
    assert record["message"] == SENTENCE
    assert record["figures"] == [
        {"text": "36.41 A", "value": 36.405, "unit": "A", "key": "shelf/x/burst"},
        {"text": "35 A", "value": 35.0, "unit": "A", "key": "shelf/y/discharge"},
        {"text": "14.8 V", "value": 14.8, "unit": "V", "key": None},
    ]
