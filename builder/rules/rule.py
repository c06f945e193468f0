"""What a rule is: one file with a code, a severity, a documented reason and a check.

A rule module holds:

    \"\"\"Transmit wired to transmit.             (one line: what it finds)

    Checks: two pads that both send, on one net.
    Why: neither hears the other; the link stays dead.
    Example: receiver.TX to controller.TX1.
    Mend: cross the two data lines.
    Source: common practice, no source
    \"\"\"
    SEVERITY = Severity.FAULT          # the worst that it gives; a Found may say a milder one
    SIGNAL = None                      # or a Signal where somebody can be hurt
    YIELDS_TO = ("fit/thread-unlike",) # rules whose finding at the same place says it already
    def check(case: Case) -> Iterator[Outcome]: ...

Its code is folder/file-name with hyphens. It yields Found for each finding, NotJudged for each fact
that it lacks, and Judged() once for each thing that it looked at and passed; a rule that yields
nothing had nothing to judge. A number in its words goes through `say` of builder/rules/say.py,
which keeps its value, unit and key and rounds it as the pages do; no rule formats a number itself.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from builder.compute.results import OfFit, Results
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.model.build import Build


@dataclass(frozen=True, eq=False)
class Case:
    """What a rule judges: the build and what was computed of it: `Results`, or of a swap how its
    parts go together.
    """

    build: Build
    results: OfFit

    @property
    def whole(self) -> Results:
        """All results, order of work, money and limits too. TypeError for a swap, which rules that
        ask do not judge.
        """
        if not isinstance(self.results, Results):
            raise TypeError("a swap is judged without order of work, money and limits")
        return self.results


@dataclass(frozen=True, slots=True)
class Found:
    """A finding of a rule: what was found (message), how to mend it (hint), where it stands."""

    message: str
    hint: str
    where: Where | None
    severity: Severity | None = None
    signal: Signal | None = None
    see: tuple[Where, ...] = ()


@dataclass(frozen=True, slots=True)
class NotJudged:
    """A fact that the rule lacks: `thread depth of the motor unknown`, and where it could be given."""

    missing: str
    where: Where | None = None


@dataclass(frozen=True, slots=True)
class Judged:
    """One thing was looked at and found right."""


Outcome = Found | NotJudged | Judged
Check = Callable[[Case], Iterator[Outcome]]


@dataclass(frozen=True)
class RuleText:
    """What the rule's docstring says."""

    title: str
    checks: str
    why: str
    example: str
    mend: str
    source: str


@dataclass(frozen=True)
class Rule:
    """A rule as it was found in its folder. `of_one_copy` judges what happened to the one specimen
    that is owned, such as its age: a new one of the same part has none of it. `of_each_part` is of the papers, and
    judges what a part says of itself, so that it is asked wherever the part may stand.
    """

    code: str
    severity: Severity
    signal: Signal | None
    text: RuleText
    check: Check
    yields_to: tuple[str, ...] = ()
    of_one_copy: bool = False
    of_each_part: bool = False

    @property
    def family(self) -> str:
        """The folder's name: wiring, power, fit, pack, radio, law, setup, bench, data."""
        return self.code.split("/")[0]
