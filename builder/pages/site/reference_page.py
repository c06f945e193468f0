"""Pages that depend on no build: what each rule looks for, and the page for an address that does
not exist.
"""

from builder.load.limits import limit_words
from builder.pages.blocks import (
    Block,
    Cell,
    Column,
    Facts,
    Page,
    Paragraph,
    Section,
    Span,
    Table,
)
from builder.pages.rows import table_row
from builder.pages.rule_address import rule_anchor, with_codes
from builder.pages.site.assumed_section import assumed_section, pads_section, prints_section
from builder.rules.find_rules import FAMILIES, all_rules
from builder.rules.mistakes import MISTAKES
from builder.rules.rule import Rule, RuleText

_WORDS = {
    "wiring": "Wiring",
    "power": "Power",
    "fit": "Fit",
    "pack": "Batteries",
    "radio": "Radio",
    "law": "Law",
    "setup": "Setup",
    "bench": "Bench",
    "data": "Data",
}

MISSING_PAGE = "404.html"


def _facts(text: RuleText) -> Block:
    rows = [
        ("Checks", text.checks),
        ("Why", text.why),
        ("Example", text.example),
        ("Fix", text.mend),
    ]
    rows.append(("Source", text.source))
    return Facts(tuple((name, Cell(with_codes(words))) for name, words in rows))


def _rule(rule: Rule) -> Section:
    signal = f" It carries the signal word {rule.signal}." if rule.signal else ""
    head = Paragraph((Span(rule.code, code=True), Span(f": a {rule.severity}.{signal}")))
    return Section(rule_anchor(rule.code), rule.text.title, (head, _facts(rule.text)), 3)


def _limits() -> Section:
    words = (
        "A workspace may hold and ask for this much. The publisher changes a limit in site.yaml, as"
        " in 'at_most: {wires: 600}'. A build cannot."
    )
    rows = tuple(
        table_row(Cell((Span(name, code=True),)), str(most), what)
        for name, most, what in limit_words()
    )
    columns = (Column("Key of at_most"), Column("At most", align="right"), Column("What"))
    table = Table("Limits", columns, rows, "limits-table")
    return Section("limits", "Limits", (Paragraph((Span(words),)), table))


def rules_page() -> Page:
    """Every rule and every mistake, made from their own documentation."""
    rules = all_rules()
    intro = Paragraph(
        (
            Span(
                "Each check finds something, passes, or says which fact it lacks. A fault keeps a"
                " sheet from being published unless the builder accepts it with a reason. A remark"
                " is worth knowing."
            ),
        ),
        lead=True,
    )
    sections = [Section("about", "What checks do", (intro,))]
    for family in FAMILIES:
        own = tuple(_rule(r) for r in rules if r.family == family)
        if own:
            sections.append(Section(family, _WORDS[family], own))
    mistakes = tuple(
        Section(
            rule_anchor(m.code),
            m.text.title,
            (
                Paragraph(
                    (
                        Span(m.code, code=True),
                        Span(": a remark." if m.remark else ": a mistake; it cannot be accepted."),
                    )
                ),
                _facts(m.text),
            ),
            3,
        )
        for m in MISTAKES
    )
    sections.append(Section("mistakes", "Mistakes in the files", mistakes))
    sections.append(_limits())
    sections += [assumed_section(), prints_section(), pads_section()]
    summary = f"What the {len(rules)} checks look for, why it matters and how to fix it."
    return Page(
        "rules/index.html",
        "rules",
        "Checks",
        summary,
        tuple(sections),
        breadcrumbs=(Span("All builds", "index.html"),),
    )


def missing_page() -> Page:
    """Served where an address does not exist."""
    words = Paragraph(
        (
            Span("Page not found. "),
            Span("All builds are listed on the front page", "index.html"),
            Span("."),
        ),
        lead=True,
    )
    return Page(
        MISSING_PAGE,
        "missing",
        "Page not found",
        "This address does not exist.",
        (Section("lost", "Page not found", (words,)),),
    )
