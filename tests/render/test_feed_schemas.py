"""Feed and sitemap of the demo workspace against schemas, as XML Schema and RELAX NG processors
(libxml2) read them.

The schemas of tests/data are written from the text of RFC 4287 and of the sitemaps.org protocol,
version 0.9.
"""

from dataclasses import replace
from pathlib import Path

import pytest
from lxml import etree

from builder.pages.site.site_pages import SitePages, site_pages
from builder.pages.summaries.summarise import summarise
from builder.pages.summaries.summary import Summary
from builder.pipeline.check import Checked
from builder.render.data.feeds import atom_feed, sitemap

ATOM = "{http://www.w3.org/2005/Atom}"


@pytest.fixture(scope="module")
def summaries(demo: Checked) -> tuple[Summary, ...]:
    return tuple(summarise(sheet) for sheet in demo.sheets.values())


@pytest.fixture(scope="module")
def pages(demo: Checked) -> SitePages:
    return site_pages(demo.workspace.site)


@pytest.fixture(scope="module")
def atom(root: Path) -> etree.RelaxNG:
    return etree.RelaxNG(etree.parse(root / "tests" / "data" / "atom.rng"))


@pytest.fixture(scope="module")
def urlset(root: Path) -> etree.XMLSchema:
    return etree.XMLSchema(etree.parse(root / "tests" / "data" / "sitemap.xsd"))


def test_the_feed_is_valid(
    summaries: tuple[Summary, ...], pages: SitePages, atom: etree.RelaxNG
) -> None:
    for site in (pages, replace(pages, address=""), replace(pages, author="")):
        atom.assertValid(etree.fromstring(atom_feed(summaries, site)))
    atom.assertValid(etree.fromstring(atom_feed((), pages)))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("<updated>", "<updated>yesterday, "),
        ("T00:00:00Z", "T00:00:00"),  # no zone
        ("<id>", "<id>x</id><id>"),
        ("<title>", "<titel>x</titel><title>"),
        ('rel="self" ', 'rel="" '),
    ],
)
def test_the_feeds_schema_refuses(
    summaries: tuple[Summary, ...], pages: SitePages, atom: etree.RelaxNG, old: str, new: str
) -> None:
    """A schema that refuses nothing would prove nothing."""
    text = atom_feed(summaries, pages).decode()
    assert old in text
    assert not atom.validate(etree.fromstring(text.replace(old, new, 1).encode()))


def test_every_entry_has_an_author_and_its_own_id(
    summaries: tuple[Summary, ...], pages: SitePages
) -> None:
    """RFC 4287, 4.1.1 and 4.1.2: a feed without an author needs one in every entry; ids are unique
    (4.2.6).
    """
    feed = etree.fromstring(atom_feed(summaries, pages))
    assert feed.find(f"{ATOM}author/{ATOM}name").text
    ids = [entry.findtext(f"{ATOM}id") for entry in feed.iter(f"{ATOM}entry")]
    assert len(ids) == len(set(ids)) == sum(1 + len(s.changes) for s in summaries)


def _entries(summaries: tuple[Summary, ...], pages: SitePages) -> dict[str, str]:
    feed = etree.fromstring(atom_feed(summaries, pages))
    return {
        e.findtext(f"{ATOM}id"): e.findtext(f"{ATOM}updated") for e in feed.iter(f"{ATOM}entry")
    }


def test_a_reader_of_the_feed_sees_a_change_once(
    summaries: tuple[Summary, ...], pages: SitePages
) -> None:
    """A reader shows what has a new id, and what has a known id and a later `updated`."""
    before = _entries(summaries, pages)
    assert _entries(summaries, pages) == before
    one, *rest = summaries
    heavier = replace(one, remarks=one.remarks + 1, summary=one.summary + " Said otherwise.")
    assert _entries((heavier, *rest), pages) == before  # other words without a revision are no news
    later = replace(one, changes=(("2027-01-02", "New arms."), *one.changes), revised="2027-01-02")
    after = _entries((later, *rest), pages)
    news = {key for key, moment in after.items() if before.get(key) != moment}
    sheet = f"{pages.address}/{one.name}/#sheet"
    assert sheet in news
    assert len(news - {sheet}) == 1  # the change itself
    assert before.keys() < after.keys()


def test_the_sitemap_is_valid(
    summaries: tuple[Summary, ...], pages: SitePages, urlset: etree.XMLSchema
) -> None:
    addresses = [
        "index.html",
        *(f"{s.name}/index.html" for s in summaries),
        "compare/a&b/<c>/index.html",
    ]
    urlset.assertValid(etree.fromstring(sitemap(addresses, summaries, pages)))


@pytest.mark.parametrize(
    ("old", "new"),
    [("https://", "/"), ("<lastmod>2", "<lastmod>the 2"), ("<loc>", "<place>x</place><loc>")],
)
def test_the_sitemaps_schema_refuses(
    summaries: tuple[Summary, ...], pages: SitePages, urlset: etree.XMLSchema, old: str, new: str
) -> None:
    text = sitemap([f"{s.name}/index.html" for s in summaries], summaries, pages).decode()
    assert old in text
    assert not urlset.validate(etree.fromstring(text.replace(old, new, 1).encode()))
