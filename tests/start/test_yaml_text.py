"""Edits of a YAML text: what is read afterwards is what was meant, and nothing else of the text
moved.
"""

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.load.yaml_text import (
    NotEdited,
    TreePath,
    appended,
    edited,
    top_blocks,
    yaml_quoted,
)

pytestmark = pytest.mark.slow  # takes long

WORDS = st.text(st.sampled_from("abc éΩ'\":#-,"), min_size=1, max_size=6).map(lambda t: f"x{t}x")
PAIRS = st.dictionaries(
    st.sampled_from(("photo", "alt", "id", "text", "do")), WORDS, min_size=1, max_size=5
)


def gone(path: TreePath) -> bool:
    return path[-1] in ("photo", "alt")


@settings(deadline=None)
@given(st.lists(PAIRS, min_size=1, max_size=4), st.sampled_from((None, True, False)))
def test_pairs_leave_a_mapping_in_any_style(steps: list[dict[str, str]], flow: bool | None) -> None:
    text = yaml.safe_dump(
        {"steps": steps, "end": "here"},
        default_flow_style=flow,
        allow_unicode=True,
        sort_keys=False,
    )
    left = [{k: v for k, v in step.items() if k not in ("photo", "alt")} for step in steps]
    assert yaml.safe_load(edited(text, gone)) == {"steps": left, "end": "here"}


@settings(deadline=None)
@given(WORDS)
def test_quotes_hold_any_line_of_text(text: str) -> None:
    assert yaml.safe_load(f"key: {yaml_quoted(text)}") == {"key": " ".join(text.split())}


def test_a_folded_text_is_replaced_and_the_next_key_stays_on_its_own_line() -> None:
    text = "accept:\n  a: >-\n    one\n    two\n  b: three\n"
    new = edited(text, new=lambda path, old: f"As {old}" if path[0] == "accept" else old)
    assert new == "accept:\n  a: 'As one two'\n  b: 'As three'\n"


def test_blocks_hold_their_comments_and_joined_are_the_text_again() -> None:
    text = "# Head.\n\n# Of a.\na: 1  # why\n\n# Far.\n\n# Of b.\nb:\n  - x\n\nc: 2"
    head, found = top_blocks(text)
    assert head + "".join(block for _, block in found) == text
    assert head == "# Head.\n\n"
    assert dict(found) == {
        "a": "# Of a.\na: 1  # why\n\n# Far.\n\n",
        "b": "# Of b.\nb:\n  - x\n\n",
        "c": "c: 2",
    }


def test_a_text_that_holds_no_keys_is_given_back() -> None:
    assert top_blocks("# nothing\n") == ("# nothing\n", ())
    assert edited("# nothing\n", gone) == "# nothing\n"


@settings(deadline=None)
@given(st.lists(PAIRS, min_size=1, max_size=4), st.sampled_from((None, True, False)))
def test_keys_are_renamed_in_any_style_beside_pairs_that_leave(
    steps: list[dict[str, str]], flow: bool | None
) -> None:
    text = yaml.safe_dump(
        {"steps": steps, "end": "here"},
        default_flow_style=flow,
        allow_unicode=True,
        sort_keys=False,
    )
    new = edited(text, gone, key=lambda path: "name" if path[-1] == "id" else str(path[-1]))
    left = [
        {"name" if k == "id" else k: v for k, v in s.items() if k not in ("photo", "alt")}
        for s in steps
    ]
    assert yaml.safe_load(new) == {"steps": left, "end": "here"}


def test_a_renamed_key_keeps_its_comment_and_its_place() -> None:
    text = "a: {old: 1 g, scale: 0.1 g}   # why\nb: 2\n"
    new = edited(
        text, lambda path: path[-1] == "scale", key=lambda path: str(path[-1]).replace("old", "new")
    )
    assert new == "a: {new: 1 g}   # why\nb: 2\n"


ITEMS = st.lists(WORDS.map(yaml_quoted), min_size=1, max_size=3).map(tuple)


@settings(deadline=None)
@given(
    st.sampled_from(("", "weighed:\n  - {what: dry}\n", "weighed:\n- {what: dry}  # first\n",
                     "weighed:\n  - what: dry\n    mass: 1 g\n\n# Of the end.\n", "weighed: []\n")),
    st.sampled_from(("", "# Head.\ntitle: T\n", "title: |\n  a\n  b\n")),
    st.sampled_from(("", "\n# Last.\nend: here\n", "end: here")),
    ITEMS,
)  # fmt: skip
def test_entries_are_put_behind_the_others_and_nothing_else_moves(
    listed: str, before: str, behind: str, items: tuple[str, ...]
) -> None:
    text = before + listed + behind
    new = appended(text, "weighed", items)
    was, now = yaml.safe_load(text) or {}, yaml.safe_load(new)
    assert now["weighed"] == [*was.get("weighed", []), *map(yaml.safe_load, items)]
    assert {k: v for k, v in now.items() if k != "weighed"} == {
        k: v for k, v in was.items() if k != "weighed"
    }
    old = [line for line in text.split("\n") if line.strip() and line != "weighed: []"]
    left = iter(new.split("\n"))
    assert all(line in left for line in old), "each old line is there still, in its order"


@pytest.mark.parametrize(
    "text",
    ["{weighed: [a]}\n", "weighed: [a, b]\n", "weighed: {a: b}\n", "weighed: one\n", "- a\n"],
)
def test_what_is_not_in_the_common_form_is_left_alone(text: str) -> None:
    with pytest.raises(NotEdited):
        appended(text, "weighed", ("c",))


def test_an_entry_that_would_say_something_else_is_refused() -> None:
    with pytest.raises(NotEdited):
        appended("a: b\n", "weighed", ("x\nb: c",))
