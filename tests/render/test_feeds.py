"""The feed against RFC 4287, the sitemap against sitemaps.org 0.9, structured data against
schema.org's HowTo.
"""

import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from xml.etree import ElementTree

from builder.pages.blocks import Page
from builder.pages.site.all_builds import all_builds_page, front_page
from builder.pages.site.site_pages import SitePages
from builder.pages.summaries.summary import Summary, SummaryNumber
from builder.render.data.feeds import atom_feed, robots_txt, sitemap
from builder.render.html.page import Renderer

ATOM = "{http://www.w3.org/2005/Atom}"
MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"


def _summary(name: str, *changes: tuple[str, str]) -> Summary:
    numbers = {
        "dry": SummaryNumber(0.1765, 0.0002, "kg", anchor="n-dry"),
        "all-up/small": SummaryNumber(0.249, 0.0001, "kg", lacks=True, anchor="n-small"),
        "all-up/long": SummaryNumber(0.271, 0.0003, "kg", anchor="n-long"),
        "endurance/small": SummaryNumber(None, 0.0, "s"),
        "endurance/long": SummaryNumber(390.0, 30.0, "s", anchor="n-mean"),
        "timer/long": SummaryNumber(390.0, 30.0, "s", anchor="n-air"),
    }
    return Summary(
        name=name,
        title=f"{name.title()} <3> & co",
        summary="For looking under sills.",
        status="flying",
        revised="2026-10-04",
        based_on="",
        numbers=numbers,
        price_minor=31240,
        currency="EUR",
        packs=("small", "long"),
        packs_used=(),
        parts=(),
        changes=changes,
        flights=3,
        remarks=1,
        accepted=0,
    )


BUILDS = (
    _summary("dipper", ("2026-10-04", "Lighter ]]> motors. " * 9), ("2026-09-01", "First.")),
    _summary("pipit", ("2026-10-04", "First.")),
)


def test_the_feed_has_what_the_standard_requires(site: SitePages) -> None:
    feed = ElementTree.fromstring(atom_feed(BUILDS, site))
    assert feed.tag == ATOM + "feed"
    for element in (feed, *feed.iter(ATOM + "entry")):
        for name in ("id", "title", "updated"):
            assert len(element.findall(ATOM + name)) == 1
        updated = element.findtext(ATOM + "updated") or ""
        assert datetime.fromisoformat(updated.replace("Z", "+00:00")).tzinfo is not None
    assert feed.find(f"{ATOM}author/{ATOM}name") is not None
    assert [e.get("href") for e in feed.findall(ATOM + "link") if e.get("rel") == "self"] == [
        f"{site.address}/feed.xml"
    ]


def test_a_reader_sees_each_change_once(site: SitePages) -> None:
    def ids(*builds: Summary) -> list[str]:
        return [
            e.findtext(ATOM + "id") or ""
            for e in ElementTree.fromstring(atom_feed(builds, site)).iter(ATOM + "entry")
        ]

    before = ids(*BUILDS)
    assert len(before) == len(set(before)) == 5
    later = replace(
        BUILDS[0], changes=(("2026-11-01", "New."), *BUILDS[0].changes), revised="2026-11-01"
    )
    after = ids(later, BUILDS[1])
    assert set(before) < set(after)
    assert len(after) == 6


def test_the_newest_entry_comes_first(site: SitePages) -> None:
    feed = ElementTree.fromstring(atom_feed(BUILDS, site))
    days = [e.findtext(ATOM + "updated") or "" for e in feed.iter(ATOM + "entry")]
    assert days == sorted(days, reverse=True)
    assert feed.findtext(ATOM + "updated") == days[0]


def test_the_sitemap_has_each_page_once_with_a_full_address(site: SitePages) -> None:
    addresses = ["dipper/index.html", "index.html", "dipper/index.html", "compare/a&b/index.html"]
    tree = ElementTree.fromstring(sitemap(addresses, BUILDS, site))
    assert tree.tag == MAP + "urlset"
    places = [u.findtext(MAP + "loc") or "" for u in tree.iter(MAP + "url")]
    assert sorted(places) == [
        f"{site.address}/",
        f"{site.address}/compare/a&b/",
        f"{site.address}/dipper/",
    ]
    assert [
        u.findtext(MAP + "lastmod") for u in tree.iter(MAP + "url") if u.findtext(MAP + "lastmod")
    ] == ["2026-10-04"]


def test_robots_names_the_sitemap(site: SitePages) -> None:
    assert f"Sitemap: {site.address}/sitemap.xml" in robots_txt(site).decode().splitlines()
    assert "Sitemap" not in robots_txt(replace(site, address="")).decode()


def _structured(page: bytes) -> dict[str, object]:
    found = re.search(r'<script type="application/ld\+json">(.*?)</script>', page.decode(), re.S)
    assert found is not None
    data: dict[str, object] = json.loads(found[1])
    return data


def test_a_sheet_is_a_how_to(
    renderer: Renderer, site: SitePages, page_of: Callable[..., Page], payload: str
) -> None:
    data = _structured(renderer.page(page_of(payload), site))
    assert (data["@context"], data["@type"]) == ("https://schema.org", "HowTo")
    steps = data["step"]
    assert isinstance(steps, list)
    assert len(steps) == 2
    assert all(s["@type"] == "HowToStep" and s["text"] and s["url"].startswith("#") for s in steps)
    assert data["tool"] == [{"@type": "HowToTool", "name": f"iron {payload}"}]


def test_the_front_page_lists_every_build_with_its_figures(
    renderer: Renderer, site: SitePages
) -> None:
    text = renderer.page(front_page(BUILDS, site), site)
    items = _structured(text)["itemListElement"]
    assert isinstance(items, list)
    assert [i["url"] for i in items] == [f"{site.address}/dipper/", f"{site.address}/pipit/"]
    page = text.decode()
    assert (
        "href=dipper/numbers/index.html#n-small>" in page
    )  # the lightest all-up is the small pack's
    assert "href=dipper/numbers/index.html#n-air>" in page  # the only flight that is known
    assert "312.40 EUR" in page.replace("\u00a0", " ").replace("&nbsp;", " ")


def test_the_table_has_a_row_for_each_pack_and_says_what_is_not_known(
    renderer: Renderer, site: SitePages
) -> None:
    page = renderer.page(
        all_builds_page(BUILDS, (("dipper", "pipit"), ("dipper", "gone")), site), site
    ).decode()
    assert page.count(" id=build-") == 4
    assert "href=../compare/dipper/pipit/index.html>" in page
    assert "gone" not in page
    assert page.count("at least") == 2
    assert "not known" in page


def test_a_feed_of_many_holds_the_newest_and_all_of_their_last_day(site: SitePages) -> None:
    days = [f"2026-{1 + n // 28:02d}-{1 + n % 28:02d}" for n in range(150)]
    many = [_summary("a", *((day, f"Change {n}") for n, day in enumerate(days)))]
    crowd = [replace(s, name=f"b{n}", changes=()) for n, s in enumerate([_summary("b")] * 120)]
    for builds, wanted in ((many, 100), (crowd, 120), ([*many, *crowd], 121)):
        feed = ElementTree.fromstring(atom_feed(builds, site))
        shown = [e.findtext(f"{ATOM}updated") or "" for e in feed.findall(f"{ATOM}entry")]
        assert len(shown) == wanted and shown == sorted(shown, reverse=True)
