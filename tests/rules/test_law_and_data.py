"""Rules of law and data: what is found, on the smallest build that shows it."""

from typing import Any

import pytest

from builder.compute.compute import compute
from builder.diagnostics.finding import Finding, Severity
from builder.publish.workers.bounded import bounded
from builder.rules.data._private_words import private_in
from builder.rules.judge import judge
from builder.rules.rule import Case
from builder.rules.unused_shelf import unused_on_shelf
from tests.compute.small_workspace import one_build, workspace

LIMIT = "limits: [{name: 250 g class, mass: 250 g, strict: yes}]"


def _found(shelf: str, build: str, site: str = "") -> dict[str, list[Finding]]:
    made = one_build(shelf, f"title: T\n{build}", f"title: T\n{site}")
    out: dict[str, list[Finding]] = {}
    for finding in judge(Case(made, compute(made))).findings:
        out.setdefault(finding.code, []).append(finding)
    return out


@pytest.mark.parametrize(
    ("code", "shelf", "build", "site", "says"),
    [
        (
            "law/over-mass-limit",
            (
                "f: {kind: frame, name: F, mass: {measured: 198 g}}\np: {kind: pack, name: P, mass:"
                " {measured: 72 g}}"
            ),
            "parts: {f: f}\npacks: {p: p}",
            LIMIT,
            "test weighs 270.00 g with battery p (20.00 g over)",
        ),
        (
            "law/over-mass-limit",
            (
                "f: {kind: frame, name: F, mass: 175 g}\np: {kind: pack, name: P, mass: {measured:"
                " 72 g}}"
            ),
            "parts: {f: f}\npacks: {p: p}",
            LIMIT,
            "a chance of",
        ),
        ("data/mass-missing", "f: {kind: frame, name: F}", "parts: {f: f}", "", "F has no weight."),
        (
            "data/mass-unlikely",
            "m: {kind: motor, name: M, mass: 4 kg}",
            "parts: {m: m}",
            "",
            "M weighs 4000 g, more than 500 g, which is unusual for one motor.",
        ),
        (
            "data/mass-unlikely",
            "p: {kind: pack, name: P, mass: 0.072 g}",
            "packs: {p: p}",
            "",
            "P weighs 0.072 g, less than 2 g",
        ),
        (
            "data/price-missing",
            "f: {kind: frame, name: F}",
            "parts: {f: f}",
            "",
            "left out: price of F",
        ),
        (
            "data/price-missing",
            "f: {kind: frame, name: F, price: {each: 9.00 USD}}",
            "parts: {f: f}",
            "",
            "rate from USD to EUR",
        ),
        (
            "data/price-old",
            "f: {kind: frame, name: F, price: {each: 9.00 EUR, seen: 2025-01-01}}",
            "parts: {f: f}",
            "as_of: 2026-01-01\nprice_age: 180 days",
            "365 days ago",
        ),
        (
            "data/never-weighed",
            "f: {kind: frame, name: F, mass: 9 g}",
            "status: flying\nparts: {f: f}",
            "",
            "no reading",
        ),
        (
            "data/sum-and-scale-disagree",
            "f: {kind: frame, name: F, mass: {measured: 100 g}}",
            "parts: {f: f}\nweighed: [{what: dry, mass: 110 g}]",
            "",
            "10.00 g more dry",
        ),
    ],
)
def test_found(code: str, shelf: str, build: str, site: str, says: str) -> None:
    found = _found(shelf, build, site)
    assert says in " ".join(f.message for f in found[code])
    assert all(f.hint and f.severity == Severity.REMARK for f in found[code])


PACKS = """
f: {kind: frame, name: F, mass: {measured: 180 g}, alternatives: [lighter]}
lighter: {kind: frame, name: Lighter frame, mass: {measured: 150 g}}
small: {kind: pack, name: S, cells: 4S, mass: {measured: 60 g}}
large: {kind: pack, name: L, cells: 4S, mass: {measured: 90 g}}
tiny: {kind: pack, name: Tiny, cells: 4S, mass: {measured: 40 g}}
"""


def _hint(shelf: str, packs: str) -> tuple[str, str]:
    found = _found(shelf, f"parts: {{f: f}}\npacks: {packs}", LIMIT)["law/over-mass-limit"]
    assert len(found) == 1
    return found[0].message, found[0].hint


def test_the_pack_of_the_build_that_brings_it_under_is_named_first() -> None:
    message, hint = _hint(PACKS, "{small: small, large: large}")
    assert message.startswith(
        "test weighs 270.00 g with battery large (20.00 g over). It has to weigh less than 250.00 g"
    )
    assert (
        hint
        == "Fly it with small (240.0 g). With large, one swap does it: Lighter frame as f (240.0"
        " g). "
        "A battery of the shelf in place of large does it: Tiny (220.0 g)."
    )


def test_a_swap_is_said_for_the_pack_for_which_it_is_true() -> None:
    """The lighter frame helps with the large pack, not with the huge one."""
    shelf = PACKS + "huge: {kind: pack, name: H, cells: 6S, mass: {measured: 130 g}}\n"
    _, hint = _hint(shelf, "{large: large, huge: huge}")
    assert hint.startswith("With large, one swap does it: Lighter frame as f (240.0 g).")
    assert "huge" not in hint


def test_where_nothing_helps_the_authority_is_named() -> None:
    shelf = (
        "f: {kind: frame, name: F, mass: {measured: 300 g}}\np: {kind: pack, name: P, mass:"
        " {measured: 72 g}}"
    )
    _, hint = _hint(shelf, "{p: p}")
    assert hint.startswith(
        "No other battery and no single swap on the shelf brings it under. Ask the authority"
    )


def test_a_weight_that_leaves_something_out_is_over_by_at_least_that() -> None:
    shelf = (
        PACKS.replace("alternatives: [lighter]", "alternatives: [gone]")
        + "gone: {kind: frame, name: G}\n"
    )
    made = _found(shelf, "parts: {f: f, g: gone}\npacks: {large: large}", LIMIT)[
        "law/over-mass-limit"
    ][0]
    assert (
        "test weighs at least 270.00 g with battery large (at least 20.00 g over)" in made.message
    )


GOOD: dict[str, Any] = {
    "shelf": (
        """
f: {kind: frame, name: F, mass: {measured: 100 g}, price: {each: 9.00 EUR, seen: 2025-12-01}}
p: {kind: pack, name: P, mass: {measured: 72 g}, price: {each: 9.00 EUR, seen: 2025-12-01}}
"""
    ),
    "build": "status: flying\nparts: {f: f}\npacks: {p: p}\nweighed: [{what: dry, mass: 100.0 g}]",
    "site": f"as_of: 2026-01-01\nprice_age: 180 days\n{LIMIT}",
}


def test_a_sound_build_gives_none_of_them() -> None:
    assert [c for c in _found(**GOOD) if c.startswith(("law/", "data/"))] == []


PRIVATE = [
    "link secret: otter holt",
    "pairing code: otter holt",
    "Bind phrase = otterholt9",
    "serial number 4F09-2217",
    "S/N: A1234567",
    "operator id: ABC123456",
    "flown from 52.20531, 0.11841",
    "password: hunter",
    "link secret - otterholt",
    "The bind phrase is 'otterholt'",
    "pairing code (4711)",
    "link phrase “otterholt”",
    "uid 12,34,56,78,90,12",
    "binding bytes: 12, 34, 56, 78, 90, 12",
]


@pytest.mark.parametrize("text", PRIVATE)
def test_private_words_stop_the_sheet(text: str) -> None:
    shelf = "f: {kind: frame, name: F, mass: 9 g}"
    found = _found(shelf, f"questions: [{{ask: How?, answer: {text!r}}}]\nparts: {{f: f}}")
    faults = found["data/private-about-to-be-published"]
    assert [f.severity for f in faults] == [Severity.FAULT]
    assert faults[0].where is not None and "answer" in faults[0].where.cite()
    assert text.split()[-1] not in faults[0].message, "the message must not publish it either"


@pytest.mark.parametrize(
    "text",
    [
        "The serial port numbers are printed beside the pads.",
        "Return to home is off.",
        "Bind the receiver before the first flight.",
        "It hovers at 0.25, as computed.",
        "The link is set to channels 1, 2 and 3.",
        "Its binding phrase stays with the builder.",
        "A secret of the trade: solder in good light.",
    ],
)
def test_plain_words_do_not(text: str) -> None:
    found = _found("f: {kind: frame, name: F, mass: 9 g}", f"summary: {text!r}\nparts: {{f: f}}")
    assert "data/private-about-to-be-published" not in found


@pytest.mark.parametrize(
    "tree",
    [
        {"name": "binding phrase", "value": "otter holt"},
        {"link secret": "otter"},
        {"notes": [{"uid": ["12", "34", "56", "78"]}]},
    ],
)
def test_a_secret_beside_the_name_of_its_key_is_found(tree: dict[str, Any]) -> None:
    assert [what for _, what in private_in(tree)] == ["the secret of a radio link"]


def test_the_name_alone_is_none() -> None:
    assert list(private_in({"name": "binding phrase", "does": "none"})) == []


def test_a_serial_number_on_the_shelf_stops_it_too() -> None:
    found = _found("f: {kind: frame, name: F, mass: 9 g, serial_number: X1}", "parts: {f: f}")
    assert found["data/private-about-to-be-published"][0].where is not None


def test_unused_entries_of_the_shelf_are_a_remark_of_the_workspace() -> None:
    shelf = (
        "f: {kind: frame, name: F, alternatives: [g]}\ng: {kind: frame, name: G}\nh: {kind: frame,"
        " name: H}"
    )
    made = workspace(shelf, {"t": "title: T\nparts: {f: f}"})
    assert [f.message for f in unused_on_shelf(made.shelf, made.builds)] == [
        "No build uses the part 'h'."
    ]


def test_what_a_pack_may_be_swapped_for_is_used() -> None:
    shelf = (
        "p: {kind: pack, name: P, cells: 4S, alternatives: [q]}\nq: {kind: pack, name: Q, cells:"
        " 4S}\nr: {kind: pack, name: R, cells: 4S}"
    )
    made = workspace(shelf, {"t": "title: T\nparts: {}\npacks: {p: p}"})
    assert [f.message for f in unused_on_shelf(made.shelf, made.builds)] == [
        "No build uses the part 'r'."
    ]


@pytest.mark.parametrize(
    "label", ["home address", "home is at", "serial number", "s/n", "password", "operator id"]
)
def test_a_long_run_of_blanks_is_looked_through_once(label: str) -> None:
    """20,000 characters are the most that a text may hold; shared out between two patterns of
    blanks they took hours.
    """
    with bounded(10):
        assert not list(private_in(f"{label}{' ' * 19_900}x."))


@pytest.mark.parametrize(
    ("build", "letters"),
    [
        ("summary: 小 in a title", "小 (U+5C0F"),  # Unicode's own names, by the standard library
        ("summary: Δ and é and Ω and × and →", ""),
        ("summary: ж", "ж (U+0436, cyrillic small letter zhe)"),
        ("summary: 'e\u0301 as two code points'", ""),
        ("summary: 小さい枠", "小 (U+5C0F, cjk unified ideograph-5c0f), さ"),
        ("parts: {рама: f}", "р (U+0440"),  # the name of a part, which is a key
    ],
)
def test_a_letter_that_would_print_as_a_box_is_said_with_its_place(
    build: str, letters: str
) -> None:
    shelf = "f: {kind: frame, name: F, mass: {measured: 198 g}}"
    whole = build if "parts" in build else f"{build}\nparts: {{f: f}}"
    found = _found(shelf, whole).get("data/letter-not-printed", [])
    assert len(found) == bool(letters)
    for finding in found:
        assert letters in finding.message
        assert finding.severity is Severity.REMARK
        assert finding.where is not None
        assert finding.where.path in (("summary",), ("parts", "рама"))
