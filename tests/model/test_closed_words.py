"""Where a danger hangs on a word, the word is one of a list; another is a mistake that lists them."""

import pytest

from builder.model.source.electrical import Socket
from builder.model.values.words import (
    FORMS,
    LOST_LINK,
    MATERIALS,
    one_word,
    own_words,
)


@pytest.mark.parametrize("words", [LOST_LINK, MATERIALS, FORMS])
def test_a_word_of_the_list_is_taken_as_it_is(words: tuple[str, ...]) -> None:
    assert [one_word(w, words) for w in words] == list(words)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("motors stop after a second", LOST_LINK),
        ("holds the last throttle", LOST_LINK),
        ("Nylon 6", MATERIALS),
        ("other:", MATERIALS),
        ("", FORMS),
    ],
)
def test_another_word_is_a_mistake_that_lists_them(text: str, words: tuple[str, ...]) -> None:
    with pytest.raises(ValueError) as caught:
        one_word(text, words)
    hint = getattr(caught.value, "context", {}).get("hint", "")
    assert all(repr(w) in hint for w in words)


def test_a_text_of_before_is_told_which_word_is_meant() -> None:
    with pytest.raises(ValueError) as caught:
        one_word("motors stop, until coming home works", LOST_LINK, " Put the rest under note.")
    hint = getattr(caught.value, "context", {}).get("hint", "")
    assert hint.startswith("Perhaps 'motors stop'?") and hint.endswith("under note.")


def test_words_of_one_s_own_are_taken_after_other() -> None:
    assert own_words(one_word("other: circles, then lands", LOST_LINK)) == "circles, then lands"


@pytest.mark.parametrize(
    ("text", "means"),
    [
        ("into the mating face, latch down", "into the mating face, latch down"),
        ("From the wire side,  latch up", "from the wire side, latch up"),
        ("from the side of the wires", ""),
        ("mirrored", ""),
    ],
)
def test_contacts_are_counted_from_a_side_that_is_named(text: str, means: str) -> None:
    """A plug that is read the wrong way round puts battery volts on a signal: nothing is guessed."""
    if means:
        assert Socket(contacts=("A",), seen=text).seen == means
        return
    with pytest.raises(ValueError, match="does not say from where"):
        Socket(contacts=("A",), seen=text)
