"""What every page of a site shares: names, the address, and where to go."""

from dataclasses import dataclass
from urllib.parse import urlsplit

from builder import __version__
from builder.model.site import Site


@dataclass(frozen=True, slots=True)
class SitePages:
    """Frozen, small, and part of every page's digest. `folder` is where a site lies whose address is
    not known. `units` are the choices of other units (`oz in degF`, any of them) for paper, and for readers who chose none.
    """

    title: str
    author: str
    address: str
    language: str
    invented: bool
    disclosure: str
    about: str
    paper: str
    currency: str
    generator: str
    navigation: tuple[tuple[str, str], ...]
    folder: str = ""
    units: str = ""

    @property
    def path(self) -> str:
        """The path from the root of the host to the site, with its last slash."""
        return f"{urlsplit(self.address).path.rstrip('/') or self.folder}/"


def site_pages(site: Site, base: str = "") -> SitePages:
    """The shared values of a site; `base` is the sub-folder of its address.

    Without an address there is none in a sub-folder either: what names pages by their full address
    (feed, QR code, links for search engines) is left out. The page for wrong addresses needs the
    folder alone.
    """
    below = f"/{base.strip('/')}" if base.strip("/") else ""
    address = site.address.rstrip("/") + below if site.address else ""
    navigation = (
        ("Builds", "index.html"),
        ("Compare", "compare/index.html"),
        ("Search", "search/index.html"),
        ("Checks", "rules/index.html"),
        ("Units", "units/index.html"),
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
        f"Benchleaf {__version__}",
        navigation,
        below if not address else "",
        site.units.choices,
    )
