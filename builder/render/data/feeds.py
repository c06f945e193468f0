"""Atom feed (RFC 4287), sitemap (sitemaps.org 0.9) and robots.txt. Dates come from the sources, not
the clock.
"""

import hashlib
from collections.abc import Iterable

from builder.model.guide.plain_words import plain_words
from builder.pages.page_map import address_of
from builder.pages.site.site_pages import SitePages
from builder.pages.summaries.summary import Summary

_EPOCH = "2000-01-01"
_TITLE = 80  # characters of a change that stand in its title


_MOST = 100  # entries, and what is as new as the last of them: a reader keeps what it has seen
_MARKUP = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"})
_WRITTEN = {c: None for c in range(32) if chr(c) not in "\t\n"} | _MARKUP


def _clean(text: str) -> str:
    """Text as XML has it, without characters that no XML may hold."""
    return text.translate(_WRITTEN)


def _moment(day: str) -> str:
    return f"{day or _EPOCH}T00:00:00Z"


def _changes(build: Summary) -> str:
    """Where the changes of a build are listed."""
    return address_of(build.name, "changes").replace("index.html", "")


def _entry(day: str, mark: str, build: Summary, change: str | None, base: str) -> str:
    """A change of a build, or the build itself."""
    url = f"{base}/{build.name}/"
    name, link, title, text = f"{url}#sheet", url, build.title, build.summary or build.title
    if change is not None:
        title = f"{build.title}: {change if len(change) <= _TITLE else change[: _TITLE - 1] + '…'}"
        name, link, text = f"{url}#change-{mark}", f"{base}/{_changes(build)}", change
    named = f"<id>{_clean(name)}</id><title>{_clean(title)}</title>"
    dated = f"<updated>{_moment(day)}</updated>"
    said = f'<link href="{_clean(link)}"/><summary>{_clean(text)}</summary>'
    return f"<entry>{named}{dated}{said}</entry>"


def _with_numbers(text: str, more: str) -> str:
    """What changed, and what it did to numbers and chapters."""
    if not more:
        return text
    end = "" if text.endswith((".", "!", "?")) else "."
    return f"{text}{end} {more}."


def atom_feed(summaries: Iterable[Summary], site: SitePages) -> bytes:
    """The newest builds and changes, newest first; an entry's id never changes, so that a reader
    shows it once.
    """
    base = site.address or "urn:benchleaf"
    found: list[tuple[str, str, Summary, str | None]] = []
    for s in summaries:
        for at, (day, text) in enumerate(s.changes):
            mark = hashlib.sha256(f"{s.name}\0{day}\0{text}".encode()).hexdigest()[:16]
            more = s.changed[at] if at < len(s.changed) else ""  # nothing by an older manifest
            found.append((day, mark, s, _with_numbers(plain_words(text), more)))
        found.append((s.revised, s.name, s, None))
    found.sort(key=lambda e: e[:2], reverse=True)
    oldest = found[_MOST - 1][0] if len(found) > _MOST else ""
    entries = [_entry(*e, base) for e in found if e[0] >= oldest]
    newest = found[0][0] if found else ""
    author = f"<author><name>{_clean(site.author or site.title)}</name></author>"
    opening = '<?xml version="1.0" encoding="utf-8"?>\n<feed xmlns="http://www.w3.org/2005/Atom">'
    here = _clean(base)
    named = f"<id>{here}/</id><title>{_clean(site.title)}</title>"
    dated = f"<updated>{_moment(newest)}</updated>{author}"
    links = f'<link rel="self" href="{here}/feed.xml"/><link href="{here}/"/>'
    head = opening + named + dated + links
    return (head + "".join(entries) + "</feed>\n").encode()


def sitemap(addresses: Iterable[str], summaries: Iterable[Summary], site: SitePages) -> bytes:
    """Every page, with the day on which its build was revised."""
    days = {s.name: s.revised for s in summaries}
    urls = []
    for address in sorted(set(addresses)):
        day = days.get(address.split("/")[0], "")
        last = f"<lastmod>{day}</lastmod>" if day else ""
        urls.append(
            f"<url><loc>{_clean(site.address)}/{_clean(address.removesuffix('index.html'))}</loc>{last}</url>"
        )
    head = (
        '<?xml version="1.0" encoding="utf-8"?>\n<urlset'
        ' xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">'
    )
    return (head + "".join(urls) + "</urlset>\n").encode()


def robots_txt(site: SitePages) -> bytes:
    """All may be read; the sitemap is named where the site has an address."""
    where = f"Sitemap: {site.address}/sitemap.xml\n" if site.address else ""
    return f"User-agent: *\nAllow: /\n{where}".encode()
