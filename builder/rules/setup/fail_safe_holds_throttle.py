"""Fail-safe holds the last throttle.

Checks: what the build says that happens when the control link is lost. It passes if it begins with
'motors stop', 'lands', 'comes home' or 'returns home', and nothing behind says that throttle is
held. Other words could not be checked.
Why: an aircraft that keeps its throttle flies on with nobody in control, into whoever stands in its
way.
Example: fail_safe does 'holds the last throttle'.
Mend: let the motors stop, or come down under control, and test it with the propellers off.
Source: common practice, no source
"""

import re
from collections.abc import Iterator

from builder.diagnostics.finding import Severity, Signal
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT
SIGNAL = Signal.DANGER
_HOLDS = re.compile(
    r"\b(hold\w*|keep\w*|kept|last|fr[eo]ez\w*|frozen|unchanged|stays?|remains?)\b", re.I
)
_DENIED = re.compile(r"\b(not|never|no)\b", re.I)
_SAFE = ("motors stop", "motors off", "lands", "comes home", "returns home")


def _begins_safe(does: str) -> bool:
    """Whether the first clause is one of the words that are known."""
    first = re.split(r"[,;:.]", does, maxsplit=1)[0].casefold().strip()
    return first.removeprefix("the ").strip() in _SAFE


def check(case: Case) -> Iterator[Outcome]:
    stated = case.build.source.setup.fail_safe
    where = case.build.where("setup", "fail_safe")
    if stated is None:
        yield NotJudged(
            "what happens when the control link is lost is not said", case.build.where("setup")
        )
        return
    holds = _HOLDS.search(stated.does) is not None
    if holds and not _begins_safe(stated.does) and _DENIED.search(stated.does) is None:
        hint = "Let the motors stop when the link is lost; test it with the propellers off."
        yield Found(
            f"When the link is lost: '{stated.does}'.",
            hint,
            case.build.where("setup", "fail_safe", "does"),
        )
    elif _begins_safe(stated.does) and not holds:
        yield Judged()
    else:
        yield NotJudged(
            f"whether '{stated.does}' stops the motors: say 'motors stop', 'lands' or 'comes home'",
            where,
        )
