"""What every page of a site shares: names, the address, and where to go."""

from dataclasses import dataclass

from builder import __version__
from builder.model.site import Site


@dataclass(frozen=True, slots=True)
class SitePages:
    """Frozen, small, and part of every page's digest."""

    title: str
    author: str
    address: str
    language: str
    invented: bool
    disclosure: str
    about: str
    paper: str
    currency: str
    derivations_on_paper: bool
    generator: str
    navigation: tuple[tuple[str, str], ...]


def site_pages(site: Site, base: str = "") -> SitePages:
    """The shared values of a site; `base` is the sub-folder of its address."""
    address = (site.address or "").rstrip("/") + (f"/{base.strip('/')}" if base.strip("/") else "")
    navigation = (
        ("Builds", "index.html"),
        ("Compare", "compare/index.html"),
        ("Checks", "rules/index.html"),
        ("File format", "fields/index.html"),
    )
    return SitePages(
        site.title,
        site.author or "",
        address,
        site.language,
        site.invented,
        site.disclosure or "",
        site.about or "",
        site.paper,
        site.currency,
        site.derivations_on_paper,
        f"Benchleaf {__version__}",
        navigation,
    )
