"""Atom feed (RFC 4287), sitemap (sitemaps.org 0.9) and robots.txt. Dates come from the sources, not the clock."""

import hashlib
from collections.abc import Iterable
from html import escape  # xml.sax.saxutils brings the whole of urllib and ssl with it

from builder.pages.site_pages import SitePages
from builder.pages.summary import Summary

_EPOCH = "2000-01-01"
_TITLE = 80  # characters of a change that stand in its title


def _clean(text: str) -> str:
    return escape("".join(c for c in text if c in "\t\n" or ord(c) >= 32), quote=False).replace('"', "&quot;")


def _moment(day: str) -> str:
    return f"{day or _EPOCH}T00:00:00Z"


def _entry(name: str, url: str, title: str, day: str, text: str) -> str:
    return (
        f"<entry><id>{_clean(name)}</id><title>{_clean(title)}</title><updated>{_moment(day)}</updated>"
        f'<link href="{_clean(url)}"/><summary>{_clean(text)}</summary></entry>'
    )


def atom_feed(summaries: Iterable[Summary], site: SitePages) -> bytes:
    """New builds and changes, newest first; each entry's id never changes, so that a reader shows it once."""
    base = site.address or "urn:benchleaf"
    entries: list[tuple[str, str, str]] = []
    for s in summaries:
        url = f"{base}/{s.name}/"
        for day, text in s.changes:
            mark = hashlib.sha256(f"{s.name}\0{day}\0{text}".encode()).hexdigest()[:16]
            title = f"{s.title}: {text if len(text) <= _TITLE else text[: _TITLE - 1] + '…'}"
            entries.append((day, mark, _entry(f"{url}#change-{mark}", f"{url}#changes", title, day, text)))
        entries.append((s.revised, s.name, _entry(f"{url}#sheet", url, s.title, s.revised, s.summary or s.title)))
    entries.sort(key=lambda e: (e[0], e[1]), reverse=True)
    newest = entries[0][0] if entries else ""
    author = f"<author><name>{_clean(site.author or site.title)}</name></author>"
    head = (
        f'<?xml version="1.0" encoding="utf-8"?>\n<feed xmlns="http://www.w3.org/2005/Atom"><id>{_clean(base)}/</id>'
        f"<title>{_clean(site.title)}</title><updated>{_moment(newest)}</updated>{author}"
        f'<link rel="self" href="{_clean(base)}/feed.xml"/><link href="{_clean(base)}/"/>'
    )
    return (head + "".join(e[2] for e in entries) + "</feed>\n").encode()


def sitemap(addresses: Iterable[str], summaries: Iterable[Summary], site: SitePages) -> bytes:
    """Every page, with the day on which its build was revised."""
    days = {s.name: s.revised for s in summaries}
    urls = []
    for address in sorted(set(addresses)):
        day = days.get(address.split("/")[0], "")
        last = f"<lastmod>{day}</lastmod>" if day else ""
        urls.append(f"<url><loc>{_clean(site.address)}/{_clean(address.removesuffix('index.html'))}</loc>{last}</url>")
    head = '<?xml version="1.0" encoding="utf-8"?>\n<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">'
    return (head + "".join(urls) + "</urlset>\n").encode()


def robots_txt(site: SitePages) -> bytes:
    """All may be read; the sitemap is named where the site has an address."""
    where = f"Sitemap: {site.address}/sitemap.xml\n" if site.address else ""
    return f"User-agent: *\nAllow: /\n{where}".encode()
