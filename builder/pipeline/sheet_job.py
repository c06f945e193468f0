"""The sheet of one build and its topic pages, for who writes it: its numbers page and data come when
asked for.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from builder.model.build import Build
from builder.model.guide.chapter import GuideChapter
from builder.model.guide.given_along import GivenAlong
from builder.pages.guide.known_words import mistakes_of_words
from builder.pages.site.build_page import sheet_pages
from builder.pages.site.site_pages import SitePages
from builder.pages.summaries.summarise import summarise
from builder.pipeline.check import judged
from builder.pipeline.jobs import Made
from builder.render.html.page import Renderer


@dataclass(frozen=True, eq=False)
class SheetJob:
    """A part of what BuildJob makes, the same to the byte; with faults it is a draft."""

    build: Build
    site: SitePages
    templates: Mapping[str, str]
    guide: tuple[GuideChapter, ...] = ()
    given: tuple[GivenAlong, ...] = ()

    def __call__(self) -> Made:
        """Makes it."""
        alone = judged(self.build, draft=True)
        sheet = replace(alone, guide=self.guide, given=self.given)
        renderer = Renderer(self.templates)
        files = {page.address: renderer.page(page, self.site) for page in sheet_pages(sheet)}
        findings = (*mistakes_of_words(sheet), *sheet.verdict.faults, *sheet.verdict.remarks)
        return Made(files, {"summary": summarise(sheet).as_plain()}, findings)
