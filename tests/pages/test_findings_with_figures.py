"""Findings on pages: a number opens its derivation where the numbers page has one, else it is plain
text.
"""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from builder.compute.figures.figure import anchor_of
from builder.diagnostics.finding import Finding, Severity
from builder.diagnostics.sentence import amounts_of
from builder.pages.blocks import Notice, Number, Span
from builder.pages.finding_words import finding_notice, sentence_pieces
from builder.pages.numbers import number
from builder.pages.sections.not_judged import not_judged
from builder.pipeline.check import Checked
from builder.render.html.block_html import block
from builder.render.html.inline_html import HtmlContext
from builder.rules.say import given, say


def _walk(value: object) -> Iterator[object]:
    yield value
    if isinstance(value, tuple | list):
        for inner in value:
            yield from _walk(inner)
    elif is_dataclass(value) and not isinstance(value, type):
        for field in fields(value):
            yield from _walk(getattr(value, field.name))


def test_a_figure_of_the_sheet_is_a_number_as_on_its_pages(demo: Checked) -> None:
    sheet = demo.sheets["dipper"]
    peak = next(f for f in sheet.figures if f.unit == "A" and f.formula is not None)
    words, shown, after = sentence_pieces(say("It takes {}.", peak), sheet)
    assert (words, after) == (Span("It takes "), Span("."))
    assert isinstance(shown, Number) and shown.anchor == anchor_of(peak.key)
    assert (shown.value, shown.unit) == (number(peak).value, number(peak).unit)


def test_what_no_page_derives_is_plain_text(demo: Checked) -> None:
    pieces = sentence_pieces(
        say("{} at most.", given(35.0, "A", "shelf/none/limit")), demo.sheets["dipper"]
    )
    assert pieces == (Span("35\u00a0A"), Span(" at most."))


def test_the_number_of_a_finding_is_a_link_in_html(demo: Checked) -> None:
    sheet = demo.sheets["dipper"]
    mass = sheet.results.mass.dry
    notice = finding_notice(
        Finding("x/y", Severity.REMARK, say("It weighs {}.", mass)), sheet, "remark"
    )
    html = block(notice, HtmlContext("../", build="dipper", numbers="numbers/index.html"))
    assert f">{number(mass).value}<i>" in html and "numbers/index.html#" in html
    assert notice.title == f"It weighs {number(mass).value} {number(mass).unit}."


def test_every_figure_of_the_demos_findings_leads_somewhere_or_nowhere(demo: Checked) -> None:
    for sheet in demo.sheets.values():
        notices = [n for n in _walk(not_judged(sheet)) if isinstance(n, Notice)]
        linked = [n for notice in notices for n in notice.said if isinstance(n, Number)]
        assert all(n.anchor in {anchor_of(k) for k in sheet.keys} for n in linked)
        keys = [
            a.key
            for f in sheet.verdict.findings
            for a in amounts_of(f.message)
            if a.key in sheet.keys
        ]
        assert len(linked) == len(keys)
