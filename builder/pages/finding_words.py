"""What a finding says, on a page: its words, and its numbers as links to their derivations."""

from typing import Literal

from builder.compute.figures.figure import anchor_of
from builder.diagnostics.finding import Finding
from builder.diagnostics.sentence import Amount, pieces_of
from builder.pages.blocks import Inline, Notice, Number, Span
from builder.pages.sheet_input import SheetInput

# Whether a part fits in the place of another, by the answer of the checks.
FIT_WORDS = {"yes": "fits", "not known": "not known whether it fits", "no": "does not fit"}


def sentence_pieces(text: str, sheet: SheetInput, build: str = "") -> tuple[Inline, ...]:
    """A sentence on a page; a number of it opens where the numbers page of that sheet derives its
    figure.

    `build` names the sheet's build on a page that is not its own.
    """
    out: list[Inline] = []
    for piece in pieces_of(text):
        if isinstance(piece, str):
            out.append(Span(piece))
        else:
            out.append(
                _number(piece, build) if piece.key in sheet.keys else Span(_kept_together(piece))
            )
    return tuple(out)


def _number(amount: Amount, build: str) -> Number:
    return Number(
        amount.shown,
        amount.shown_unit,
        anchor=anchor_of(amount.key),
        prefix=amount.prefix,
        build=build,
    )


def _kept_together(amount: Amount) -> str:
    """The number with its unit, which no line break parts."""
    return amount.text.replace(" ", "\u00a0")


def finding_notice(finding: Finding, sheet: SheetInput, tone: Literal["fault", "remark"]) -> Notice:
    """A finding with its signal word, what to do, and its code."""
    said, hint = sentence_pieces(finding.message, sheet), sentence_pieces(finding.hint, sheet)
    return Notice(
        finding.signal, str(finding.message), hint, code=finding.code, tone=tone, said=said
    )
