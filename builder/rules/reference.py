"""`benchleaf explain` and the rules page, made from the documentation of rules and mistakes."""

from builder.diagnostics.finding import Severity
from builder.rules.find_rules import all_rules
from builder.rules.mistakes import MISTAKES
from builder.rules.rule import RuleText


def codes() -> tuple[tuple[str, str], ...]:
    """Every code with its title: rules by family, then mistakes."""
    return (
        *((r.code, r.text.title) for r in all_rules()),
        *((m.code, m.text.title) for m in MISTAKES),
    )


def _text(code: str, severity: str, text: RuleText) -> str:
    rows = (
        ("Checks", text.checks),
        ("Why", text.why),
        ("Example", text.example),
        ("Fix", text.mend),
        ("Source", text.source),
    )
    lines = [f"  {name + ':':<9}{words}" for name, words in rows]
    return "\n".join([f"{code}: {text.title}", f"  {severity}", *lines])


def explanation(code: str) -> str | None:
    """What a code is about, or None for one that does not exist; the family may be left out where
    one code fits.
    """
    fit = [known for known, _ in codes() if known == code or known.partition("/")[2] == code]
    code = fit[0] if len(fit) == 1 else code
    for rule in all_rules():
        if rule.code == code:
            signal = f", signal word {rule.signal}" if rule.signal else ""
            can = (
                "keeps a sheet from being published unless it is accepted"
                if rule.severity == Severity.FAULT
                else "is worth knowing"
            )
            return _text(code, f"a {rule.severity}{signal}: {can}", rule.text)
    for mistake in MISTAKES:
        if mistake.code == code:
            kind = (
                "a remark: is worth knowing"
                if mistake.remark
                else "a mistake: it cannot be accepted"
            )
            return _text(code, kind, mistake.text)
    return None
