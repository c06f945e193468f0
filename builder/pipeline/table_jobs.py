"""Jobs of the pages over all builds, and of the reference."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.model.build import ShelfEntry
from builder.model.site import Site
from builder.pages.compare.any_two import compare_any_page
from builder.pages.site.all_builds import all_builds_page, front_page
from builder.pages.site.field_page import field_page
from builder.pages.site.part_list import PartLine, listed_part, part_list_page
from builder.pages.site.reference_page import missing_page, rules_page
from builder.pages.site.search_page import search_page
from builder.pages.site.site_pages import SitePages
from builder.pages.site.units_page import units_page
from builder.pages.summaries.summary import Summary
from builder.pipeline.jobs import Made
from builder.pipeline.part_jobs import WantedPart
from builder.render.data.feeds import atom_feed, robots_txt, sitemap
from builder.render.data.schemas import schema_files
from builder.render.html.page import Renderer


@dataclass(frozen=True, eq=False)
class ReferenceJob:
    """Pages that depend on no build: rules, fields, the page for a wrong address; and the JSON
    Schemas.
    """

    site: SitePages
    templates: Mapping[str, str]

    def __call__(self) -> Made:
        """Makes them."""
        renderer = Renderer(self.templates)
        pages = (rules_page(), field_page(), units_page(), missing_page())
        return Made({**{p.address: renderer.page(p, self.site) for p in pages}, **schema_files()})


def limits_shown(site: Site) -> tuple[tuple[str, float], ...]:
    """Limits of weight that the drawing of all builds shows: name and kilograms."""
    return tuple((x.name, x.mass.value) for x in site.limits if x.applies_to == "all-up")


def listed_parts(
    shelf: Mapping[str, ShelfEntry], wanted: Sequence[WantedPart]
) -> tuple[tuple[PartLine, WantedPart], ...]:
    """The lines of the list of parts, each with what the part's page shows of builds."""
    out = []
    for part in wanted:
        line = listed_part(part.shelf, shelf[part.shelf].part)
        out.append((line, part))
    return tuple(out)


@dataclass(frozen=True, eq=False)
class TablesJob:
    """Pages over all builds, and feeds."""

    summaries: tuple[Summary, ...]
    pairs: tuple[tuple[str, str], ...]
    site: SitePages
    templates: Mapping[str, str]
    addresses: tuple[str, ...]
    limits: tuple[tuple[str, float], ...] = ()
    parts: tuple[tuple[PartLine, WantedPart], ...] = ()

    def __call__(self) -> Made:
        """Makes them."""
        renderer = Renderer(self.templates)
        lines = [line for line, _ in self.parts]
        wanted = [part for _, part in self.parts]
        users = {w.shelf: w.users for w in wanted}
        history = {w.shelf: w.history for w in wanted}
        names: dict[str, str] = {}
        for part in wanted:
            names.update(part.names)
        pages = [
            front_page(self.summaries, self.site),
            all_builds_page(self.summaries, self.pairs, self.site, self.limits),
            compare_any_page(self.summaries),
            search_page(self.summaries),
            part_list_page(lines, users, history, names),
        ]
        files = {p.address: renderer.page(p, self.site) for p in pages}
        addresses = (*self.addresses, *(p.address for p in pages))
        if self.site.address.startswith(("http://", "https://")):  # both hold full addresses only
            files["feed.xml"] = atom_feed(self.summaries, self.site)
            files["sitemap.xml"] = sitemap(addresses, self.summaries, self.site)
        files["robots.txt"] = robots_txt(self.site)
        return Made(files)
