"""Load, model, compute, rules: a workspace is read and judged; nothing is published."""

from dataclasses import dataclass, replace
from pathlib import Path

from builder.compute.compare.pack_sizes import pack_sizes
from builder.compute.compute import compute
from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import Where
from builder.load.files import Loaded, load
from builder.model.build import Build
from builder.model.read.read_cache import NOTHING_KNOWN, ReadCache
from builder.model.read.workspace import Workspace, read_workspace
from builder.pages.guide.known_words import mistakes_of_words
from builder.pages.sheet_input import SheetInput
from builder.pages.site.picture_files import guide_pictures, picture_files
from builder.pipeline.beside.guides import given_files, guide_source
from builder.pipeline.beside.pictures_of import pictures_of
from builder.publish.workers.bounded import TooLong, bounded
from builder.rules.choose.search import choose_swaps
from builder.rules.judge import Verdict, judge
from builder.rules.rule import Case
from builder.rules.try_alternatives import try_alternatives
from builder.rules.unused_shelf import unused_on_shelf


@dataclass(frozen=True)
class Checked:
    """A workspace that was read and judged."""

    loaded: Loaded
    workspace: Workspace
    sheets: dict[str, SheetInput]
    wrong: tuple[Finding, ...] = ()
    errors: tuple[str, ...] = ()  # what went wrong inside, by build; all others were judged

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Mistakes first, then what the rules found, build by build; accepted faults are left out."""
        found = [*self.workspace.findings, *self.wrong]
        for sheet in self.sheets.values():
            found += [*sheet.verdict.faults, *sheet.verdict.remarks]
        if len(self.sheets) == len(
            self.workspace.names
        ):  # a build that was not read may use what looks unused
            found += unused_on_shelf(self.workspace.shelf, self.workspace.builds)
        return tuple(found)

    @property
    def stops(self) -> tuple[Finding, ...]:
        """Findings that keep a build from being published."""
        return (
            *self.workspace.findings,
            *self.wrong,
            *(f for s in self.sheets.values() for f in s.verdict.faults),
        )


def judged_alone(build: Build, *, draft: bool = False) -> SheetInput:
    """One build, computed and judged, without what its alternatives would change; one with faults
    may be a draft.
    """
    results = compute(build)
    verdict = judge(Case(build, results))
    return SheetInput(build, results, verdict, draft and bool(verdict.faults))


def computed_alone(build: Build, *, draft: bool) -> SheetInput:
    """One build, computed, for pages that show nothing of what was judged; `draft` as that said."""
    return SheetInput(build, compute(build), Verdict((), (), ()), draft)


def judged(build: Build, *, draft: bool = False) -> SheetInput:
    """One build, computed and judged, with what each of its alternatives would change: a run of
    both for each.
    """
    sheet = judged_alone(build, draft=draft)
    tried = try_alternatives(build, sheet.results, sheet.verdict)
    sizes = pack_sizes(build, sheet.results)
    choices = choose_swaps(build, build.shelf, sheet.results, sheet.verdict)
    return replace(sheet, alternatives=tried, sizes=sizes, choices=choices)


def read(
    workspace: Path, before: Loaded | None = None, known: ReadCache = NOTHING_KNOWN
) -> tuple[Loaded, Workspace]:
    """A workspace, loaded and modelled; what is as it was `before` is not read from text again.

    What is as it was when it was `known` is read when somebody asks for it.
    """
    loaded = load(workspace, before=before, sound=known.sound)
    return loaded, read_workspace(loaded, known)


def wrong_beside(sheet: SheetInput, loaded: Loaded) -> tuple[Finding, ...]:
    """What is wrong with the chapters of a build and with what it gives along."""
    root, limits, build = loaded.root, loaded.limits, sheet.build
    source, given = guide_source(root, build.chain, limits), given_files(build, root, limits)
    shown = guide_pictures(source.chapters)
    _, pictures = pictures_of(build.name, shown, root, limits)
    words = mistakes_of_words(replace(sheet, guide=source.chapters))
    named = words if not source.findings else ()  # a chapter that is not read is no unknown one
    return (*source.findings, *given.findings, *pictures, *named)


def check_workspace(
    workspace: Path, only: tuple[str, ...] = (), *, alternatives: bool = True
) -> Checked:
    """A workspace, read and judged, every build or only those named; findings do not hang on
    `alternatives`.

    An error inside one build is kept and said; all others go on.
    """
    loaded, model = read(workspace)
    sheets: dict[str, SheetInput] = {}
    wrong: list[Finding] = []
    errors: list[str] = []
    for name in model.builds:
        if only and name not in only:
            continue
        try:
            build = model.builds[name]
            wrong += pictures_of(name, picture_files(build), loaded.root, loaded.limits)[1]
            with bounded(loaded.limits.seconds):
                sheets[name] = judged(build) if alternatives else judged_alone(build)
                wrong += wrong_beside(sheets[name], loaded)
        except Exception as error:  # noqa: BLE001 - one build must not stop the others; it is reported
            errors.append(f"{name}: {type(error).__name__}: {error}")
        except TooLong as error:
            problem = f"Checking this build took over {error.seconds} s and was stopped; all others go on."
            hint = "Make it smaller, or raise seconds under at_most in site.yaml."
            wrong.append(mistake("data/too-slow", problem, hint, Where(f"{name}/build.yaml"), name))
    return Checked(loaded, model, sheets, tuple(wrong), tuple(errors))
