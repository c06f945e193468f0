"""What a page says of itself: its language, its address, its title block."""

from collections.abc import Callable
from dataclasses import replace

from builder.model.site import Site
from builder.pages.blocks import Page
from builder.pages.site.reference_page import missing_page
from builder.pages.site.site_pages import SitePages, site_pages
from builder.render.html.page import Renderer


def test_the_pages_are_english_and_only_the_writers_text_is_said_to_be_otherwise(
    renderer: Renderer, site: SitePages, page_of: Callable[..., Page]
) -> None:
    """HTML standard, 3.2.6.2: `lang` names the language of an element's text."""
    page = page_of("", "sheet")
    german = renderer.page(page, replace(site, language="de-CH")).decode()
    assert '<html lang="en">' in german
    assert '<p class="summary" lang=de-CH>' in german
    assert "<h1 lang=de-CH>" in german
    assert "<h1 lang" not in renderer.page(missing_page(), replace(site, language="de")).decode()
    assert "<div class=prose lang=de-CH>" in german
    assert "<h2 lang" not in german
    for language in ("en", "en-GB"):
        plain = renderer.page(page, replace(site, language=language)).decode()
        assert plain.count("lang=") == 1


def test_a_sub_folder_without_an_address_gives_no_half_addresses(
    renderer: Renderer, page_of: Callable[..., Page]
) -> None:
    site = site_pages(Site(title="T"), "/sheets")
    assert site.address == ""
    page = renderer.page(page_of("", "sheet"), site).decode()
    for name in ("canonical", "og:url", "og:image", "feed.xml"):
        assert name not in page
    assert 'href="/sheets/assets/sheet.css"' in renderer.page(missing_page(), site).decode()


def test_the_page_for_wrong_addresses_leads_back_from_any_depth(renderer: Renderer) -> None:
    for address, base, path in (
        (None, "", "/"),
        ("https://a.example/b/", "", "/b/"),
        ("https://a.example/b", "/c/", "/b/c/"),
        ("https://a.example", "c", "/c/"),
    ):
        site = site_pages(Site(title="T", address=address), base)
        page = renderer.page(missing_page(), site).decode()
        assert f'href="{path}assets/sheet.css"' in page
        assert f"href={path}index.html" in page


def test_the_title_block_has_the_fields_of_the_standard(
    renderer: Renderer, site: SitePages, page_of: Callable[..., Page]
) -> None:
    """ISO 7200:2004, mandatory fields, from memory: legal owner, identification number, date of
    issue, sheet, title, document type; here also state and digest.
    """
    made = renderer.page(replace(page_of("", "sheet"), digest="0123456789abcdef"), site).decode()
    block = made[
        made.index('<dl class="block">') : made.index("</dl>", made.index('class="block"'))
    ]
    for label, value in (
        ("Owner", "The bench group"),
        ("Title", "Dipper 3"),
        ("Document", "build sheet"),
        ("Number", "dipper"),
        ("State", "flying"),
        ("Revised", "2026-10-04"),
        ("Source", "0123456789ab"),
    ):
        assert f"<dt>{label}<dd>{value}" in block
