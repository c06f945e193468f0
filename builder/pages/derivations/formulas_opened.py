"""The formulas that a page of derivations has opened so far."""

from builder.compute.figures.formula import FormulaText
from builder.compute.figures.sloped_formula import Formula


def _says_the_same(one: FormulaText, other: FormulaText) -> bool:
    """Whether two formulas are one to a reader: some differ only in the words for what they take."""
    first = (one.formula, one.title, one.source, one.limits)
    return first == (other.formula, other.title, other.source, other.limits)


class Formulas(dict[str, FormulaText]):
    """Each formula that a page uses, by its anchor: what it says, its source and limits stand there
    once.
    """

    def anchor(self, how: Formula) -> str:
        """The id under which the page opens a formula: short, for a page names it a thousand times."""
        name = f"f-{how.name.replace('_', '-')}"
        anchor, at = name, 1
        while not _says_the_same(self.setdefault(anchor, how.text), how.text):
            at += 1
            anchor = f"{name}-{at}"
        return anchor
