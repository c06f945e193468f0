"""Where the rules page speaks of a rule or a mistake, and its code within a sentence."""

import re
from functools import cache

from builder.pages.blocks import Span
from builder.rules.reference import codes


def rule_anchor(code: str) -> str:
    """The anchor of its section."""
    return "rule-" + code.replace("/", "-")


def rule_address(code: str) -> str:
    """Its address under the site's root."""
    return f"rules/index.html#{rule_anchor(code)}"


@cache
def _codes() -> re.Pattern[str]:
    """Any code of a rule or a mistake, the longest first."""
    names = sorted((code for code, _ in codes()), key=len, reverse=True)
    return re.compile(rf"(?<![\w/-])({'|'.join(map(re.escape, names))})(?![\w-])")


def with_codes(words: str) -> tuple[Span, ...]:
    """Words in which the code of a rule is set as a code, so that nobody reads it as a word."""
    parts = _codes().split(words)  # words and codes in turn
    pieces = (Span(part, code=i % 2 == 1) for i, part in enumerate(parts) if part)
    return tuple(pieces)
