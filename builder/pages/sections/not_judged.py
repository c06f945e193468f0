"""What the rules said, and what no rule could judge for want of a fact. Silence is never a pass."""

from collections.abc import Iterator

from builder.compute.circuit.print_pads import taken_from_prints
from builder.compute.circuit.usual_pads import TakenAsUsual, taken_as_usual
from builder.diagnostics.sentence import joined
from builder.pages.blocks import Block, Cell, Notice, Paragraph, Section, Span, Table
from builder.pages.finding_words import finding_notice, sentence_pieces
from builder.pages.rows import table_columns, table_row
from builder.pages.rule_address import rule_address
from builder.pages.sheet_input import SheetInput
from builder.rules.not_looked_at import (
    not_looked_at,
    resting_on_prints,
    resting_on_usual_pads,
)

UNCHECKED = "unchecked"  # anchor of the table that the short sheet shows


def _taken_from_prints(sheet: SheetInput) -> Iterator[Block]:
    """The contacts that are known by their print only, and what each was taken for."""
    taken = taken_from_prints(sheet.build)
    if not taken:
        return
    rest = len(resting_on_prints(sheet.build, sheet.verdict))
    words = (
        "Nobody looked these up: what they are was taken from the print beside them. No check of a"
        " danger passes by them, and the first power-up measures them."
        f" {_checks(rest)} may rest on them."
    )
    rows = []
    for each in taken:
        meant = ", ".join(f"{pad} ({role})" for pad, role in each.meant.items())
        rows.append(table_row(Span(each.part, code=True), meant))
    yield Paragraph((Span(words),))
    yield Table("Assumed from prints", table_columns("Part", "Contacts"), tuple(rows))


def _taken_as_usual(sheet: SheetInput) -> Iterator[Block]:
    """The soldered contacts of which nobody says size, copper or pitch, and what was taken."""
    soldered = (joint.contact for joint in sheet.results.joints)
    taken = taken_as_usual(sheet.build, soldered)
    if not taken:
        return
    rest = len(resting_on_usual_pads(sheet.verdict))
    words = (
        "Nobody says these of the contacts: they are what is usual for the kind of part, in a wide"
        " band. The heat of joints and the weight of solder use them. No check of a danger does,"
        f" and no place for a probe. {_checks(rest)} may rest on them."
    )
    rows = [table_row(Span(t.part, code=True), ", ".join(t.pads), _usual_words(t)) for t in taken]
    columns = table_columns("Part", "Contacts", "Taken")
    yield Paragraph((Span(words),))
    yield Table("Assumed by kind of part", columns, tuple(rows), stack=True)


def _usual_words(taken: TakenAsUsual) -> str:
    """`size, copper of a pad of a receiver`."""
    return f"{', '.join(taken.facts)} of a {taken.usual.what}"


_WORDS = "No check understands sentences. Of a note, figures and words of a list are compared."


def _checks(number: int) -> str:
    return "1 check that passed" if number == 1 else f"{number} checks that passed"


def not_judged(sheet: SheetInput) -> Section:
    """The count, remarks and accepted faults, and each missing fact with the place where it could
    be given.
    """
    verdict = sheet.verdict
    said = f"{sheet.checks}."
    blocks: list[Block] = [Paragraph((Span(said, strong=True),), lead=True)]
    blocks += [
        Notice(
            a.finding.signal,
            str(a.finding.message),
            (Span("Accepted by the builder: " + a.reason),),
            code=a.finding.code,
            tone="accepted",
            said=sentence_pieces(a.finding.message, sheet),
        )
        for a in verdict.accepted
    ]
    blocks += [finding_notice(f, sheet, "fault") for f in verdict.faults]
    blocks += [finding_notice(f, sheet, "remark") for f in verdict.remarks]
    rows = []
    for answer in verdict.not_judged:
        facts = dict.fromkeys(n.missing for n in answer.not_judged)
        places = dict.fromkeys(n.where.cite() for n in answer.not_judged if n.where is not None)
        rule = Span(answer.rule.text.title, rule_address(answer.rule.code))
        pieces = sentence_pieces(joined("; ", facts), sheet)
        rows.append(table_row(rule, Cell(pieces, note="; ".join(places))))
    if rows:
        blocks.append(
            Table(
                "Could not be checked",
                table_columns("Check", "Fact that is missing"),
                tuple(rows),
                UNCHECKED,
            )
        )
    blocks += _taken_from_prints(sheet)
    blocks += _taken_as_usual(sheet)
    unread = not_looked_at(sheet.build)
    if unread:
        words = f"Fields of the source that are shown and that no check uses: {'; '.join(unread)}."
        blocks.append(Paragraph((Span(words),)))
    blocks.append(Paragraph((Span(_WORDS),)))
    return Section("not-judged", "Checks", tuple(blocks))
