"""The pages of a build, its sheets to print and its comparisons, each as a job."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import Where
from builder.load.limits import DEFAULT_LIMITS
from builder.model.build import Build
from builder.model.guide.chapter import GuideChapter
from builder.model.guide.given_along import GivenAlong
from builder.pages.bench.at_bench_page import at_bench_page
from builder.pages.compare.page import compare_page
from builder.pages.guide.known_words import mistakes_of_words
from builder.pages.page_map import CHOOSE
from builder.pages.paper.bench_page import bench_page, files_printed
from builder.pages.paper.bench_sheet import bench_sheet, field_card_sheet, gates_sheet
from builder.pages.retired import retired_of_pair
from builder.pages.site.build_page import all_pages
from builder.pages.site.card import card, card_address
from builder.pages.site.figures_data import figures_data
from builder.pages.site.findable import Findable, chapter_lines, found_in, lines_of_page
from builder.pages.site.picture_files import narrowest, picture_files
from builder.pages.site.site_pages import SitePages
from builder.pages.site.source_given import SourceGiven, private_in_source
from builder.pages.summaries.summarise import summarise
from builder.pipeline.check import judged, judged_alone
from builder.pipeline.jobs import Files, Made, PictureSizes, stands_still
from builder.pipeline.sides import side
from builder.publish.workers.garbage import collect_printed
from builder.render.data.away_files import away_files
from builder.render.data.buy_csv import buy_csv
from builder.render.data.csv_and_text import description_txt, parts_csv
from builder.render.data.search_data import find_js
from builder.render.data.sheet_data import data_files
from builder.render.html.page import Renderer
from builder.render.paper.pdf_libraries import LibrariesLacking, lacking
from builder.rules.could_stay import stays


@dataclass(frozen=True, eq=False)
class BuildJob:
    """The pages of one build, without its PDF; they lead to it where it is `printed`, and to its source
    where that is `given`. `sizes` are those of its photographs, which lie there in more than one width;
    `guide` are the chapters that they lead to, `along` the files.
    """

    build: Build
    site: SitePages
    templates: Mapping[str, str]
    draft: bool
    printed: bool = True
    given: SourceGiven | None = None
    sizes: PictureSizes = field(default_factory=dict)
    guide: tuple[GuideChapter, ...] = ()
    along: tuple[GivenAlong, ...] = ()
    model: str = ""

    def __call__(self) -> Made:
        """Makes them."""
        alone = judged(self.build, draft=self.draft)
        sheet = replace(alone, guide=self.guide, given=self.along)
        findings = (*sheet.verdict.faults, *sheet.verdict.remarks)
        unknown = mistakes_of_words(sheet)
        if stands_still(sheet) or unknown:
            return Made({}, {}, (*findings, *unknown))
        figures = sheet.figures
        renderer = Renderer(self.templates)
        pages = (*all_pages(sheet, figures), bench_page(sheet))
        at_bench = at_bench_page(sheet)
        name = self.build.name
        archive, private = self._archive()
        printed = {f"{name}/{file}" for file in files_printed(sheet)}
        lacks = set() if self.printed else printed
        lacks |= {f"{name}/source.zip"} if not archive else set()
        shown = (*pages, at_bench)
        without = frozenset(lacks)
        files = {p.address: renderer.page(p, self.site, without, self.sizes) for p in shown}
        files |= away_files(at_bench.address, files[at_bench.address], at_bench.title)
        files[f"{name}/parts.csv"] = parts_csv(sheet)
        files[f"{name}/buy.csv"] = buy_csv(sheet)
        files[f"{name}/description.txt"] = description_txt(sheet, pages, self.site)
        files[f"{name}/find.js"] = find_js(name, self.build.title, found_in(shown, self._told()))
        files |= data_files(name, figures_data(sheet, figures))
        narrow = narrowest(self.sizes)
        plain = {
            "summary": summarise(sheet, narrow).as_plain(),
            "rules": sheet.checks,
            "pictures": [p.as_plain() for p in picture_files(self.build)],
            "files": [[f.name, f.what, f.file] for f in self.build.source.files],
            "gives": bool(archive),
            "guide_on_paper": self.build.source.guide_on_paper,
            "model": self.model,
        }
        return Made(files, plain, (*findings, *private))

    def _told(self) -> Iterator[Findable]:
        """The page of swaps, which is made apart, and the chapters, as search finds them."""
        yield from lines_of_page(CHOOSE, self.build.name)
        for chapter in self.guide:
            if chapter.is_inherited:  # found at its base
                continue
            headings = [(heading.anchor, heading.title) for heading in chapter.headings]
            yield from chapter_lines(chapter.title, chapter.page, headings)

    def _archive(self) -> tuple[bytes, tuple[Finding, ...]]:
        """The source as an archive; none, with a mistake, where it would give something private
        away.
        """
        private = private_in_source(self.given) if self.given is not None else ""
        if not private:
            return self.given.archive() if self.given is not None else b"", ()
        name = self.build.name
        problem = f"Its source would publish {private}, so the sheet comes without its source."
        hint = (
            "Take it out of the build, its base, its parts or site.yaml; or write give_source: no."
        )
        found = mistake("data/private-source", problem, hint, Where(f"{name}/build.yaml"), name)
        return b"", (found,)


@dataclass(frozen=True, eq=False)
class PdfJob:
    """The bench sheet of one build, and the card that stands for it where its address is shared.

    `pictures` are those beside its steps, as published, by address; `guide` are the chapters that are
    printed.
    """

    build: Build
    site: SitePages
    templates: Mapping[str, str]
    draft: bool
    digest: str
    kilobytes: int = DEFAULT_LIMITS.paper_kilobytes
    pictures: Mapping[str, bytes] = field(default_factory=dict)
    guide: tuple[GuideChapter, ...] = ()

    def __call__(self) -> Made:
        """Makes them."""
        if lacks := lacking():
            raise LibrariesLacking(lacks)
        from builder.render.paper.card_image import card_png
        from builder.render.paper.pdf import (  # WeasyPrint: seconds to import, only PDFs need it
            TooMuchPaper,
            bench_sheet_pdf,
        )

        sheet = judged_alone(self.build, draft=self.draft)
        sheet = replace(sheet, guide=self.guide)
        if stands_still(sheet):
            return Made({})
        makers = (bench_sheet, gates_sheet, field_card_sheet)
        sheets = [s for make in makers if (s := make(sheet, self.site, self.digest)) is not None]
        files: Files = {}
        try:
            for made in sheets:
                files[made.page.address] = bench_sheet_pdf(
                    made, self.site, self.templates, self.kilobytes, self.pictures
                )
        except TooMuchPaper as error:
            problem = (
                f"Its bench sheet is {error.kilobytes} kB of text; at most {self.kilobytes} kB are"
                " printed."
            )
            here = Where(f"{self.build.name}/build.yaml")
            hint = "Split the build, or raise paper_kilobytes under at_most in site.yaml."
            return Made({}, {}, (mistake("data/too-large", problem, hint, here, self.build.name),))
        picture = card_png(card(sheet, self.site), self.templates, self.pictures)
        collect_printed()
        return Made({**files, card_address(self.build.name): picture})


@dataclass(frozen=True, eq=False)
class CompareJob:
    """Two builds side by side."""

    first: Build
    second: Build
    site: SitePages
    templates: Mapping[str, str]
    draft: bool

    def __call__(self) -> Made:
        """Makes them."""
        first, second = side(self.first, draft=self.draft), side(self.second, draft=self.draft)
        if stands_still(first) or stands_still(second):
            return Made({})
        tried = stays(first.build, second.build, second.verdict)
        page = compare_page(first, second, tried)
        page = replace(page, banner=retired_of_pair(first.build, second.build))
        return Made({page.address: Renderer(self.templates).page(page, self.site)})
