"""One type for everything that is found, by whichever stage."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any

from builder.diagnostics.sentence import plain_amounts, with_amounts
from builder.diagnostics.where import Where

LONGEST_MESSAGE = 400


class Severity(StrEnum):
    """What a finding does: a mistake stops reading, a fault stops publishing, a remark is worth
    knowing.
    """

    MISTAKE = "mistake"
    FAULT = "fault"
    REMARK = "remark"


class Signal(StrEnum):
    """Signal words of ANSI Z535.6, worst first."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"


@dataclass(frozen=True, slots=True)
class Finding:
    """What was found, where it stands, and how to fix it.

    The message says what was found, the hint what to do; either may be a Sentence, which knows its
    numbers. `build` is empty for the shelf and the site file.
    """

    code: str
    severity: Severity
    message: str
    hint: str = ""
    where: Where | None = None
    build: str = ""
    signal: Signal | None = None
    see: tuple[Where, ...] = ()

    def in_build(self, build: str) -> "Finding":
        """The same finding, said of one build."""
        return replace(self, build=build)


def as_plain(finding: Finding) -> list[object]:
    """A finding as plain values, to be kept in a file."""
    named = (finding.where, *finding.see)
    known = [w for w in named if w is not None]
    places = [[w.file, list(w.path), w.key, w.offset] for w in known]
    said = [
        finding.code,
        finding.severity.value,
        str(finding.message),
        str(finding.hint),
        finding.build,
    ]
    amounts = [plain_amounts(finding.message), plain_amounts(finding.hint)]
    signal = finding.signal.value if finding.signal else None
    return [
        *said,
        signal,
        finding.where is not None,
        places,
        amounts,
    ]


def is_remark(plain: Sequence[Any]) -> bool:
    """Whether what `as_plain` gave is a remark."""
    return bool(plain[1] == Severity.REMARK.value)


def from_plain(plain: Sequence[Any]) -> Finding:
    """The finding that `as_plain` gave. Raises ValueError, TypeError or LookupError for anything
    else.
    """
    code, severity, message, hint, build, signal, placed, places, (in_message, in_hint) = plain
    wheres = [Where(file, tuple(path), key, offset) for file, path, key, offset in places]
    where = wheres.pop(0) if placed else None
    word = Signal(signal) if signal else None
    said, mend = with_amounts(message, in_message), with_amounts(hint, in_hint)
    return Finding(code, Severity(severity), said, mend, where, build, word, tuple(wheres))


def mistake(
    code: str, message: str, hint: str = "", where: Where | None = None, build: str = ""
) -> Finding:
    """A finding that load or model cannot read on from. A message that quotes a long text is cut."""
    if len(message) > LONGEST_MESSAGE:
        message = f"{message[: LONGEST_MESSAGE - 100]} … {message[-80:]}"
    return Finding(code, Severity.MISTAKE, message, hint, where, build)


class Stopped(Exception):
    """Raised inside load and model to leave a branch that cannot be read; carries its findings."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("; ".join(f.message for f in self.findings))


@dataclass
class Collector:
    """Gathers findings while one stage runs, so that all mistakes are said at once. Local to a
    call.
    """

    findings: list[Finding] = field(default_factory=list)

    def add(self, *findings: Finding) -> None:
        """Keep these findings, in the order in which they came."""
        self.findings.extend(findings)

    def take(self) -> tuple[Finding, ...]:
        """All findings so far, each once."""
        return tuple(dict.fromkeys(self.findings))
