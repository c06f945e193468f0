"""`benchleaf check`: reads and checks, publishes nothing."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder import pipeline
from builder.cli.common import (
    count,
    known_build,
    print_findings,
    tell_line,
    workspace_option,
)
from builder.cli.completion import offer_builds
from builder.compute.circuit.print_pads import taken_from_prints
from builder.compute.circuit.usual_pads import taken_as_usual
from builder.diagnostics.finding import Severity
from builder.diagnostics.show import as_json, harmless
from builder.diagnostics.told_once import told_once
from builder.pages.sheet_input import SheetInput
from builder.rules.not_looked_at import (
    not_looked_at,
    resting_on_prints,
    resting_on_usual_pads,
)

if TYPE_CHECKING:
    from builder.pipeline.sources.unanswered import Unanswered

_MOST_ANSWERS = 20
_EXAMPLES = """\b
Examples:
  benchleaf check                      every build of this workspace
  benchleaf check dipper --unchecked   one build: facts that checks lacked, and which to give first
  benchleaf check builds/dipper/build.yaml  the build that a file belongs to, for hooks; of the shelf: all
  benchleaf check --json               findings for an editor
"""


def _builds_of(words: tuple[str, ...]) -> tuple[str, ...]:
    """The builds that are meant by names, or by files of theirs; a file that all builds use means
    all: no name.
    """
    names: list[str] = []
    for word in words:
        path = Path(word)
        if "builds" not in path.parts[:-1]:
            names.append(word)
            continue
        steps = path.parts[len(path.parts) - path.parts[::-1].index("builds") :]
        if len(steps) < 2 or steps[0] == "shelf":
            return ()
        names.append(steps[0])
    return tuple(dict.fromkeys(names))


def _tell_build(name: str, sheet: SheetInput, *, unchecked: bool) -> None:
    """What was found in a build, in a line, and what could not be checked."""
    verdict = sheet.verdict
    parts = [count(len(verdict.faults), "fault"), count(len(verdict.remarks), "remark")]
    if verdict.accepted:
        parts.append(f"{len(verdict.accepted)} accepted by the builder")
    tell_line(f"{name}: {', '.join(parts)}; {verdict.summary()}")
    unread = not_looked_at(sheet.build)
    if unchecked and unread:
        tell_line(f"  shown, used by no check: {harmless('; '.join(unread))}")
    elif unread:
        tell_line(f"  {count(len(unread), 'field')} used by no check (--unchecked names them)")
    _tell_prints(sheet, unchecked=unchecked)
    _tell_usual(sheet, unchecked=unchecked)
    for answer in verdict.not_judged:
        missing = "; ".join(dict.fromkeys(n.missing for n in answer.not_judged))
        if unchecked or len(verdict.not_judged) <= 3:
            tell_line(f"  could not be checked: {answer.rule.code}: {harmless(missing)}")
    if len(verdict.not_judged) > 3 and not unchecked:
        codes = ", ".join(a.rule.code for a in verdict.not_judged)
        tell_line(f"  could not be checked: {codes} (--unchecked says why)")


def _tell_prints(sheet: SheetInput, *, unchecked: bool) -> None:
    """The contacts that are known by their print only, and how many checks read such contacts."""
    taken = taken_from_prints(sheet.build)
    if not taken:
        return
    many = count(sum(len(each.meant) for each in taken), "contact is", "contacts are")
    rest = count(len(resting_on_prints(sheet.build, sheet.verdict)), "check")
    names = "" if unchecked else " (--unchecked names them)"
    tell_line(f"  {many} assumed from prints; {rest} that passed may rest on them{names}")
    for each in taken if unchecked else ():
        meant = ", ".join(f"{pad} ({role})" for pad, role in each.meant.items())
        tell_line(harmless(f"  assumed from prints: {each.part}: {meant}"))


def _tell_usual(sheet: SheetInput, *, unchecked: bool) -> None:
    """The soldered contacts whose size, copper or pitch is what is usual for the kind of part."""
    taken = taken_as_usual(sheet.build, (joint.contact for joint in sheet.results.joints))
    if not taken:
        return
    many = count(sum(len(each.pads) for each in taken), "contact has", "contacts have")
    rest = count(len(resting_on_usual_pads(sheet.verdict)), "check")
    names = "" if unchecked else " (--unchecked names them)"
    tell_line(
        f"  {many} size, copper or pitch as usual for the part's kind; {rest} that passed may rest"
        f" on them{names}"
    )
    for each in taken if unchecked else ():
        facts, pads = ", ".join(each.facts), ", ".join(each.pads)
        tell_line(
            harmless(f"  assumed by kind: {each.part}: {pads}: {facts} of a {each.usual.what}")
        )


def _tell_answers(ranked: "Unanswered") -> None:
    """What to give next, the answer that settles most first; each was tried."""
    for answer in ranked.answers[:_MOST_ANSWERS]:
        tell_line(harmless(f"  give {answer.words} ({answer.place}): {answer.settles.words}"))
    more = len(ranked.answers) - _MOST_ANSWERS
    if more > 0:
        tell_line(f"  {count(more, 'more answer')} would settle less.")
    if not ranked.all_tried:
        tell_line("  Not every answer was tried; give those above and ask again.")
    for fact in ranked.named:
        codes = ", ".join(fact.codes)
        tell_line(harmless(f"  missing: {fact.missing}: {codes}"))


@click.command(epilog=_EXAMPLES)
@click.argument("builds", nargs=-1, shell_complete=offer_builds, metavar="[BUILD]...")
@click.option(
    "--json",
    "as_list",
    is_flag=True,
    help="Print the findings as a JSON list, for editors and programs.",
)
@click.option(
    "--unchecked",
    "--not-judged",
    is_flag=True,
    help="List what could not be checked and the fact that is missing, and which answer settles most.",
)
@workspace_option
def check(builds: tuple[str, ...], as_list: bool, unchecked: bool, workspace: Path) -> None:
    """Check builds (all, or those named, or those that files belong to) without publishing."""
    builds = _builds_of(builds)
    done = pipeline.check_workspace(workspace, builds, alternatives=False)
    for name in builds:
        known_build(name, done.workspace.names)
    findings = [f for f in done.findings if not builds or f.build in (*builds, "")]
    stops = bool(done.errors) or any(f.severity != Severity.REMARK for f in findings)
    for error in done.errors:
        click.echo(
            f"benchleaf: an error inside Benchleaf while checking {harmless(error)}. Please"
            " report it.",
            err=True,
        )
    if as_list:
        click.echo(as_json(findings, done.loaded))
        sys.exit(1 if stops else 0)
    findings = list(told_once(findings))
    print_findings(findings, done.loaded)
    for name, sheet in done.sheets.items():
        _tell_build(name, sheet, unchecked=unchecked)
        if unchecked and sheet.verdict.not_judged:
            from builder.pipeline.sources.unanswered import unanswered  # only who asks needs it

            _tell_answers(unanswered(done.loaded, done.workspace, name))
    mistakes = [f for f in findings if f.severity == Severity.MISTAKE]
    if mistakes:
        tell_line(
            f"{count(len(mistakes), 'mistake')} to fix before these files can be read.", err=True
        )
    sys.exit(1 if stops else 0)
