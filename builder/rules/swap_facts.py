"""What is not known of a build with one part swapped: a fact that a rule lacks there is never a
yes.
"""

from typing import Literal

from builder.compute.circuit.contacts import joins_of
from builder.diagnostics.where import Where
from builder.model.build import Build, Contact, Fitted
from builder.model.kinds import Cable
from builder.rules.judge import RuleAnswer, Verdict

Fits = Literal["yes", "no", "not known"]
OF_PAPERS = (
    "data",
    "law",
)  # these judge the one aircraft that was weighed and flown, not how parts go together


def answer_of(speaks_against: bool, lacking: tuple[str, ...]) -> Fits:
    """No where something speaks against it, not known where a fact lacks, else yes."""
    if speaks_against:
        return "no"
    return "not known" if lacking else "yes"


def _is_of(where: Where | None, key: str, shelf: str) -> bool:
    """Whether a place is that of the swapped part: its entry on the shelf, or its line in the
    build.
    """
    path = where.path if where is not None else ()
    return path[:1] == (shelf,) or path[:2] in (("parts", key), ("packs", key))


def _decided(answer: RuleAnswer) -> bool:
    return bool(answer.findings) or answer.passed > 0


def facts_lacking(before: Verdict, after: Verdict, key: str, shelf: str) -> tuple[str, ...]:
    """What rules lack with the swapped part.

    Facts that they had before, facts of the part itself, and whole rules that decided before and
    have nothing to judge now.
    """
    had = {a.rule.code: a for a in before.answers}
    out: list[str] = []
    for answer in after.answers:
        if answer.rule.of_one_copy or answer.rule.family in OF_PAPERS:
            continue
        was = had.get(answer.rule.code)
        known_before = {n.missing for n in was.not_judged} if was is not None else set()
        lacked = [
            n.missing
            for n in answer.not_judged
            if n.missing not in known_before or _is_of(n.where, key, shelf)
        ]
        out += lacked
        silent = (
            answer.answer == "nothing to judge" and answer.rule.family != "setup"
        )  # what is set follows the part
        if silent and was is not None and _decided(was):
            out.append(f"{answer.rule.code} has nothing to check any more")
    return tuple(dict.fromkeys(out))


def is_blind_cable(build: Build, key: str) -> bool:
    """Whether a part is a cable that nobody says the lie of.

    What it would join is not known, so nothing that it seems to leave unjoined is a finding.
    """
    part = build.parts[key].part
    return (
        isinstance(part, Cable)
        and part.lies is None
        and any(p.plug.use == key for p in build.plugs)
    )


def unfed(build: Build, key: str) -> tuple[str, ...]:
    """The contacts through which a part is fed, where no wire or plug reaches any of them; empty
    where one does.
    """
    fitted = build.parts[key]
    supply = fitted.part.supply
    if supply is not None and (supply.own_cell or supply.from_balance_lead):
        return ()
    reached = {c for j in joins_of(build) if j.by != "inside" for c in (j.a, j.b)}
    out: list[str] = []
    for piece in fitted.pieces:
        feeding = [Contact(key, piece, name) for name in _feeding(fitted)]
        if feeding and not reached & set(feeding):
            out += [f"nothing feeds {c}" for c in feeding]
    return tuple(out)


def _feeding(fitted: Fitted) -> tuple[str, ...]:
    """Pads that draw, with those that copper joins to them inside."""
    pads = fitted.part.pads
    draws = {name for name, pad in pads.items() if pad.role == "draws"}
    return tuple(n for n, pad in pads.items() if n in draws or draws & set(pad.joined_to))


def unwired(build: Build, key: str, wired_there: Build) -> tuple[str, ...]:
    """Contacts of a part that a wire reaches in the build that it comes from, and none in this one."""
    reached = {(c.part, c.pad) for j in joins_of(build) if j.by != "inside" for c in (j.a, j.b)}
    there = {(c.part, c.pad) for j in joins_of(wired_there) if j.by != "inside" for c in (j.a, j.b)}
    pads = build.parts[key].part.pads
    open_ones = [
        p
        for p in pads
        if (key, p) in there and (key, p) not in reached and pads[p].role != "ground"
    ]
    return tuple(f"what {key}.{p} is to be wired to" for p in open_ones)
