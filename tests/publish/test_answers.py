"""What comes back from another machine is bytes with a digest and plain records: nothing else is
taken for an answer.
"""

import hashlib
import json
import pickle
import random
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.diagnostics.finding import Severity, mistake
from builder.diagnostics.where import Where
from builder.pipeline.answers import BadAnswer, FailedThere, answer, opened
from builder.pipeline.jobs import Made
from builder.render.html.page import BadTemplate
from builder.render.paper.pdf_libraries import LibrariesLacking

MADE = Made(
    {"wren/index.html": b"<p>\xff", "wren/empty": b"", "wren/ü.csv": b"a,b"},
    {"rules": [1, "x"], "pictures": []},
    (mistake("data/x", "Wrong.", "Mend it.", Where("wren/build.yaml", ("parts", 0)), "wren"),),
)


def test_what_a_job_made_comes_back() -> None:
    assert opened(answer(lambda: MADE)) == MADE
    assert opened(answer(lambda: MADE)).findings[0].severity == Severity.MISTAKE


def _failing(error: Exception) -> Callable[[], Made]:
    def job() -> Made:
        raise error

    return job


@pytest.mark.parametrize(
    "error",
    [LibrariesLacking(("libpango", "libx")), BadTemplate("page.html: line 3"), MemoryError()],
    ids=repr,
)
def test_errors_that_are_told_apart_come_back(error: Exception) -> None:
    with pytest.raises(type(error)) as raised:
        opened(answer(_failing(error)))
    assert str(raised.value) == str(error)


def test_any_other_error_comes_back_in_its_words() -> None:
    with pytest.raises(FailedThere, match="KeyError: 'frame'"):
        opened(answer(_failing(KeyError("frame"))))


class Evil:
    """Runs code where it is unpickled."""

    def __init__(self, file: Path) -> None:
        self.file = file

    def __reduce__(self) -> tuple[object, ...]:
        return (Path.touch, (self.file,))


def test_a_pickle_is_no_answer_and_is_not_read(tmp_path: Path) -> None:
    content = pickle.dumps(Evil(tmp_path / "ran"))
    for given in (
        content,
        hashlib.sha256(content).hexdigest().encode() + content,
        MADE,
        None,
        "text",
    ):
        with pytest.raises(BadAnswer):
            opened(given)
    assert not (tmp_path / "ran").exists()


def _with(change: Callable[[dict[str, object]], object], files: bytes = b"abc") -> bytes:
    """An answer with a right digest and another head."""
    head: dict[str, object] = {"files": [["a/b", 3]], "plain": {}, "findings": []}
    change(head)
    text = json.dumps(head).encode()
    body = len(text).to_bytes(8, "big") + text + files
    return hashlib.sha256(body).hexdigest().encode() + body


def test_a_made_up_answer_is_read() -> None:
    assert opened(_with(lambda head: None)) == Made({"a/b": b"abc"}, {}, ())


@pytest.mark.parametrize(
    "path", ["../b", "/b", "a/../b", "a//b", "", "a/./b", "a\0b", ".htaccess", "a/.b/c"]
)
def test_an_address_that_leads_out_is_refused(path: str) -> None:
    with pytest.raises(BadAnswer):
        opened(_with(lambda head: head.update(files=[[path, 3]])))


@pytest.mark.parametrize(
    "head",
    [
        {"files": [["a", -1], ["b", 4]]},
        {"files": [["a", 4]]},
        {"files": [["a", 2]]},
        {"files": [["a", True]]},
        {"files": {"a": 3}},
        {"plain": []},
        {"plain": {"summary": 3}},
        {"plain": {"summary": {"numbers": {}}}},
        {"findings": [["x"]]},
        {"findings": [["x", "no severity", "m", "h", "b", None, False, [], [[], []]]]},
        {
            "findings": [
                [
                    "x",
                    "remark",
                    "3 A",
                    "h",
                    "b",
                    None,
                    False,
                    [],
                    [[[1, 3.0, "A", "k", "3", "A", ""]], []],
                ]
            ]
        },
        {
            "findings": [
                [
                    "x",
                    "remark",
                    "3 A",
                    "h",
                    "b",
                    None,
                    False,
                    [],
                    [[[0, "3", "A", "k", "3", "A", ""]], []],
                ]
            ]
        },
        {"more": 1},
    ],
    ids=str,
)
def test_another_shape_is_refused(head: dict[str, object]) -> None:
    with pytest.raises(BadAnswer):
        opened(_with(lambda given: given.update(head)))


def test_any_accident_on_the_way_is_seen() -> None:
    chance, whole = random.Random(1), answer(lambda: MADE)
    for _ in range(500):
        at = chance.randrange(len(whole))
        flipped = whole[:at] + bytes([whole[at] ^ (1 << chance.randrange(8))]) + whole[at + 1 :]
        for spoilt in (whole[:at], flipped, whole[at:] + whole[:at] if at else b""):
            with pytest.raises(BadAnswer):
                opened(spoilt)


def test_deep_json_under_a_right_digest_is_refused() -> None:
    text = b"[" * 100_000
    body = len(text).to_bytes(8, "big") + text
    with pytest.raises(BadAnswer):
        opened(hashlib.sha256(body).hexdigest().encode() + body)
