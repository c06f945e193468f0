"""Every trap of YAML that the issue names: said in one message, or read as the text that stands
there.
"""

import pytest

from builder.load.characters import unfit
from builder.model.read.workspace import Workspace
from tests.hostile.in_memory import said

FRAME = "frame-a: {kind: frame, name: A frame, mass: 60 g, size: 1 x 1 x 1 mm}\n"


def build(text: str) -> Workspace:
    return said({"site.yaml": "title: T\n", "shelf/a.yaml": FRAME, "b/build.yaml": text})


BOMB = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{chr(98 + i)}: &{chr(98 + i)} [{', '.join([f'*{chr(97 + i)}'] * 9)}]\n" for i in range(9)
)
REFUSED = {
    "a tag": ("title: !!str x\n", "a tag (!!str)"),
    "a tag that would run code": (
        "title: !!python/object/apply:os.system [id]\n",
        "a tag (!!python/object/apply:os.system)",
    ),
    "a tag of its own": ("title: !include /etc/hostname\n", "a tag (!include)"),
    "a binary tag": ("title: !!binary aGk=\n", "a tag (!!binary)"),
    "an anchor": ("title: &x y\n", "an anchor (&x)"),
    "an alias": ("title: T\nsummary: *x\n", "an alias (*x)"),
    "a bomb of aliases": (BOMB, "an anchor (&a)"),
    "a loop of aliases": ("title: T\nparts: &p {a: *p}\n", "an anchor (&p)"),
    "a merge key": ("title: T\nparts: {<<: {a: b}}\n", "A merge key (<<)"),
    "a key twice": ("title: T\ntitle: U\n", "'title' stands twice"),
    "a key twice, deep": ("title: T\nsetup: {rotation: {a: b, a: c}}\n", "'a' stands twice"),
    "a second document": ("title: T\n---\ntitle: U\n", "a second document"),
    "a zero byte": ("title: a\0b\n", "not YAML"),
    "a control character": ("title: a\x1bb\n", "not YAML"),
    "a control character by escape": ('title: "a\\x1bb"\n', "a control character (U+001B)"),
    "a C1 control by escape": ('title: "a\\x9bb"\n', "a control character (U+009B)"),
    "half a pair": ('title: "a\\ud800b"\n', "not YAML"),
    "no character": ('title: "a\\uffffb"\n', "U+FFFF"),
    "a mark of byte order inside": ('title: "a\\ufeffb"\n', "U+FEFF"),
    "an override of direction": ('title: "a\\u202eb"\n', "turns the direction of reading (U+202E)"),
    "an isolate": ('title: "a\\u2066b"\n', "turns the direction of reading (U+2066)"),
    "an override in a key": (
        'title: T\naccept: {"a\\u202eb": c}\n',
        "This key holds a character that turns",
    ),
    "a key of 300 characters": (
        f"title: T\naccept: {{{'k' * 300}: c}}\n",
        "This key holds 300 characters",
    ),
    "deep nesting": ("title: T\nsetup: " + "[" * 40 + "]" * 40 + "\n", "nested too deep"),
    "very deep nesting": ("title: T\nsetup: " + "{a: " * 90_000 + "\n", "nested too deep"),
    "deep nesting by indents": ("".join(f"{' ' * i}a:\n" for i in range(500)), "nested too deep"),
    "a text that is too long": (f"title: {'x' * 30_000}\n", "A text of 30000 characters"),
    "a tab as indent": ("parts:\n\ta: b\n", "not YAML"),
    "not a number": ("title: T\nweighed: [{what: dry, mass: .nan}]\n", "cannot be read as a mass"),
    "infinite": ("title: T\nweighed: [{what: dry, mass: .inf}]\n", "cannot be read as a mass"),
    "infinite by its exponent": (
        "title: T\nweighed: [{what: dry, mass: 1e999 g}]\n",
        "cannot be right here",
    ),
    "minus infinite": (
        "title: T\nweighed: [{what: dry, mass: -1e999 g}]\n",
        "cannot be right here",
    ),
    "an infinite spread": (
        "title: T\nweighed: [{what: dry, mass: 100 ± 1e999 g}]\n",
        "the spread after ±",
    ),
    "negative": ("title: T\nweighed: [{what: dry, mass: -3 g}]\n", "cannot be right here"),
    "hexadecimal": (
        "title: T\nweighed: [{what: dry, mass: 0x1F g}]\n",
        "'x1F g' is not a unit of mass",
    ),
    "with a low line": (
        "title: T\nweighed: [{what: dry, mass: 1_000 g}]\n",
        "'_000 g' is not a unit of mass",
    ),
    "a boolean for a mass": (
        "title: T\nweighed: [{what: dry, mass: yes}]\n",
        "cannot be read as a mass",
    ),
    "a date for a mass": (
        "title: T\nweighed: [{what: dry, mass: 2026-10-04}]\n",
        "is not a unit of mass",
    ),
    "a time of day for a mass": (
        "title: T\nweighed: [{what: dry, mass: 12:30}]\n",
        "is not a unit of mass",
    ),
    "an octal for a date": ("title: T\nrevised: 0o17\n", "is not a date"),
    "a day that is none": ("title: T\nrevised: 2026-02-30\n", "is not a date"),
    "a year of five digits": ("title: T\nrevised: 12026-02-03\n", "is not a date"),
    "a count with an exponent": (
        "title: T\nparts: {a: {use: frame-a, count: 1e3}}\n",
        "not a whole number",
    ),
    "a count of a million": (
        "title: T\nparts: {a: {use: frame-a, count: 1000000}}\n",
        "pieces; at most",
    ),
    "a superscript for a count": (
        "title: T\nparts: {a: {use: frame-a, count: ²}}\n",
        "not a whole number",
    ),
    "a quantity of 5,000 characters": (
        f"title: T\nweighed: [{{what: dry, mass: 1{' ' * 5000}g x}}]\n",
        "a text of 5004 characters",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_it_is_refused_in_one_message(case: str) -> None:
    text, words = REFUSED[case]
    model = build(text)
    messages = [f.message for f in model.findings]
    assert any(words in m for m in messages), messages
    assert "b" not in model.builds


READ_AS_TEXT = (
    "2026-10-04",
    "12:30",
    "190:20:30",
    "010",
    "0o17",
    "0x1F",
    "1_000",
    "1e3",
    "yes",
    "no",
    "on",
    "off",
    "true",
    "False",
    "null",
    "NULL",
    ".nan",
    ".inf",
    "-.INF",
    "=",
    "3.14",
    "+1",
    "1.",
    ".5",
    "0b1010",
    "2026-10-04T12:30:00Z",
)


@pytest.mark.parametrize("word", READ_AS_TEXT)
def test_what_yaml_reads_as_something_else_stays_the_text_that_it_is(word: str) -> None:
    """YAML 1.1 reads these as dates, times in base 60, octals, numbers, booleans or nothing
    (https://yaml.org/type/).
    """
    assert build(f"title: {word}\n").builds["b"].title == word


def test_line_ends_and_a_byte_order_mark_of_other_systems_are_read() -> None:
    model = build("title: T\r\nsummary: |\r\n  one\r\n  two\r\n")
    assert model.builds["b"].source.summary == "one\ntwo"
    assert build("\ufefftitle: T\n").builds["b"].title == "T"


def test_a_very_long_line_is_read_and_shown_short() -> None:
    text = "title: T\nwires: [" + ", ".join("{from: a.b, to: c.d}" for _ in range(240)) + "]\n"
    model = build(text)
    assert len(model.findings) >= 100  # one for each end, until it is enough


def test_letters_of_every_script_are_fit() -> None:
    for text in (
        "Ω ± µ ²",
        "Größe",
        "مروحية",
        "רחפן",
        "無人機",
        "👩🏽‍🔧",
        "🏴󠁧󠁢󠁥󠁮󠁧󠁿",
        "ที่",
        "a\nb\tc",
    ):
        assert unfit(text) is None
        assert build(f'title: "{text}"\n'.replace("\n", "\\n", text.count("\n"))).builds["b"].title


def test_counts_are_decimal() -> None:
    build_ = build("title: T\nparts: {a: {use: frame-a, count: 010}}\n").builds["b"]
    assert build_.parts["a"].count == 10


@pytest.mark.parametrize(
    "end", ["a.².b", "a.٣.b", "a.99999999999999999999.b", "a.-1.b", "a..b", ".", "a", ""]
)
def test_a_wire_end_that_is_none(end: str) -> None:
    model = build(
        f"title: T\nparts: {{a: {{use: frame-a, count: 4}}}}\nwires: [{{from: '{end}', to:"
        " a.1.x}]\n"
    )
    assert "b" not in model.builds and {f.code for f in model.findings} == {"data/no-such-contact"}
