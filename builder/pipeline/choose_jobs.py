"""What the whole shelf can do for a build, as a job of its own: who changes a part makes no other page
of the builds that might use it anew.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial

from builder.compute.choose.offers import may_be_offered
from builder.load.assumed import assumed
from builder.model.build import Build, ShelfEntry
from builder.model.kinds import Pack
from builder.pages.choose.choose_page import choose_page
from builder.pages.site.site_pages import SitePages
from builder.pipeline.jobs import Job, Made, Wanted, stands_still
from builder.pipeline.run import PublishRun
from builder.pipeline.sides import side
from builder.publish.workers.pool import Maker
from builder.render.html.page import Renderer
from builder.rules.choose.search import choose_swaps

_MOST_JUDGED = round(assumed("choosing/judged-for-a-page"))


@dataclass(frozen=True, eq=False)
class ChooseJob:
    """The page of swaps of one build, from all parts of the shelf."""

    build: Build
    shelf: Mapping[str, ShelfEntry]
    site: SitePages
    templates: Mapping[str, str]
    draft: bool

    def __call__(self) -> Made:
        """Makes it."""
        sheet = replace(side(self.build, draft=self.draft), build=self.build)
        if stands_still(sheet):
            return Made({})
        found = choose_swaps(
            sheet.build, self.shelf, sheet.results, sheet.verdict, at_most=_MOST_JUDGED
        )
        page = choose_page(sheet, found)
        return Made({page.address: Renderer(self.templates).page(page, self.site)})


def _choose_job(run: PublishRun, name: str) -> Job:
    shelf = dict(run.model.shelf)
    return ChooseJob(run.model.builds[name], shelf, run.site, run.templates, run.options.draft)


def _offered(run: PublishRun, name: str) -> list[str]:
    """The digests of all parts of the shelf of which the kind is in a build, and of all batteries."""
    parts = run.model.parts
    used = {parts[shelf].kind for shelf in run.model.builds.facts[name].uses if shelf in parts}
    kinds = {kind for kind in used if may_be_offered(kind)} | {Pack.KIND}
    return [f"{p.shelf} {p.digest}" for p in parts.values() if p.kind in kinds]


def wanted_choices(run: PublishRun) -> Wanted:
    """A job for each build whose pages were made; the page of a build that is kept is kept."""
    wanted: dict[str, tuple[str, Maker[Made]]] = {}
    for name, build in run.ready.items():
        record = run.records.get(f"build:{name}")
        if record is None or record.kept:
            run.keep(f"choose:{name}", kept=True)
            continue
        digest = run.digest("choose", name, build, *_offered(run, name))
        wanted[f"choose:{name}"] = (digest, partial(_choose_job, run, name))
    return wanted
