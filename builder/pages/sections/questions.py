"""What strangers ask, and the builder's answers."""

from builder.pages.blocks import Block, Prose, Section
from builder.pages.sheet_input import SheetInput


def _anchor(text: str, number: int) -> str:
    letters = [c if c.isalnum() and c.isascii() else " " for c in text.casefold()]
    words = "-".join("".join(letters).split()[:8])
    return f"ask-{words or number}"


def questions(sheet: SheetInput) -> Section:
    """Each question under an anchor of its own, so that it can be cited."""
    asked = sheet.build.source.questions
    blocks: list[Block | Section] = []
    for i, q in enumerate(asked, 1):
        anchor = f"ask-{q.id}" if q.id else _anchor(q.ask, i)
        blocks.append(Section(anchor, q.ask, (Prose(q.answer),), 3))
    return Section("questions", "Questions", tuple(blocks))
