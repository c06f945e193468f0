"""Findings as text for a terminal, with the source line and a caret, and as JSON."""

import json
import unicodedata
from collections.abc import Iterable

from builder.diagnostics.finding import Finding
from builder.diagnostics.sentence import amounts_of
from builder.diagnostics.where import SourcePlace, Sources

LONGEST_LINE = 160
_SAFE_CATEGORIES_OUT = {"Cc", "Cf", "Cs", "Co", "Zl", "Zp"}


def harmless(text: str) -> str:
    """Text that cannot steer a terminal: control and direction-changing characters are shown by
    code point.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(c if _is_harmless(c) else f"\\u{{{ord(c):x}}}" for c in text)


def _is_harmless(c: str) -> bool:
    return c == "\t" or unicodedata.category(c) not in _SAFE_CATEGORIES_OUT


def _source_lines(place: SourcePlace) -> list[str]:
    start = max(0, place.column - 1 - LONGEST_LINE // 2)
    cut = place.text[start : start + LONGEST_LINE]
    line = harmless(cut.replace("\t", " "))
    before = harmless(cut[: place.column - 1 - start].replace("\t", " "))
    width = max(1, min(place.width, LONGEST_LINE - len(before)))
    number = f"{place.line:>6} | "
    return [number + line, " " * (len(number) - 2) + "| " + " " * len(before) + "^" * width]


def as_text(finding: Finding, sources: Sources) -> str:
    """One finding over a few lines: place and code, message, source line with caret, hint."""
    place = sources.locate(finding.where) if finding.where else None
    if place is not None:
        head = f"{place.file}:{place.line}:{place.column}: "
    elif finding.where is not None:
        head = f"{finding.where.file}: "
    else:
        head = f"{finding.build}: " if finding.build else ""
    signal = f"{finding.signal}: " if finding.signal else ""
    lines = [
        f"{harmless(head)}{finding.severity} [{finding.code}] {signal}{harmless(finding.message)}"
    ]
    if place is not None and place.text:
        lines += _source_lines(place)
    for also in finding.see:
        there = sources.locate(also)
        lines.append(
            "       see " + harmless(f"{there.file}:{there.line}" if there else also.cite())
        )
    if finding.hint:
        lines.append("       " + harmless(finding.hint))
    return "\n".join(lines)


def figures_record(*texts: str) -> list[dict[str, object]]:
    """The numbers of sentences: as they stand there, the value in its SI unit, and the key of the
    figure behind it.

    The key is null where there is none. A number may be a part of its figure, such as the share of
    one motor.
    """
    amounts = (a for text in texts for a in amounts_of(text))
    return [
        {"text": a.text, "value": a.value, "unit": a.unit, "key": a.key or None} for a in amounts
    ]


def as_record(finding: Finding, sources: Sources) -> dict[str, object]:
    """One finding as the record that `check --json` prints."""
    place = sources.locate(finding.where) if finding.where else None
    severity = finding.severity.value
    signal = finding.signal.value if finding.signal else None
    build = finding.build or None
    message, hint = finding.message, finding.hint
    figures = figures_record(message, hint)
    file = line = column = None
    if place:
        file, line, column = place.file, place.line, place.column
    elif finding.where:
        file = finding.where.file
    return {
        "code": finding.code,
        "severity": severity,
        "build": build,
        "file": file,
        "line": line,
        "column": column,
        "message": message,
        "hint": hint,
        "signal": signal,
        "figures": figures,
    }


def as_json(findings: Iterable[Finding], sources: Sources) -> str:
    """A JSON list of findings, for editors and hooks; ASCII, so that nothing in it steers a
    terminal.
    """
    return json.dumps([as_record(f, sources) for f in findings], indent=1)
