"""The structured data of every sheet and table: it parses, and says only what schema.org's
vocabulary has.

Domains and ranges below are those of schema.org's published definitions (https://schema.org/HowTo,
/HowToStep, /HowToTool, /HowToSupply, /ItemList, /ListItem), read from the typings made of that
vocabulary (schema-dts 2.1.0).
"""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from urllib.parse import urljoin, urlsplit

import pytest

from builder.pages.blocks import Page
from builder.pages.site.build_page import work_page
from builder.pages.site.site_pages import SitePages, site_pages
from builder.pipeline.check import Checked
from builder.render.html.page import Renderer, template_texts

NAMES = ("curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone")
PARENTS: Mapping[str, tuple[str, ...]] = {
    "HowTo": ("CreativeWork",),
    "HowToSection": ("CreativeWork", "ItemList", "ListItem"),
    "HowToStep": ("CreativeWork", "ItemList", "ListItem"),
    "HowToTool": ("HowToItem",),
    "HowToSupply": ("HowToItem",),
    "HowToItem": ("ListItem",),
    "ItemList": ("Thing",),
    "ListItem": ("Thing",),
    "CreativeWork": ("Thing",),
    "MonetaryAmount": ("Thing",),
    "Thing": (),
}
# Property: the types that have it, the types that its value may be.
VOCABULARY: Mapping[str, tuple[frozenset[str], frozenset[str]]] = {
    name: (frozenset(domain.split()), frozenset(values.split()))
    for name, domain, values in (
        ("name", "Thing", "Text"),
        ("description", "Thing", "Text"),
        ("url", "Thing", "URL"),
        ("text", "CreativeWork", "Text"),
        ("dateModified", "CreativeWork", "Date"),
        ("step", "HowTo", "CreativeWork HowToSection HowToStep Text"),
        ("tool", "HowTo HowToDirection", "HowToTool Text"),
        ("supply", "HowTo HowToDirection", "HowToSupply Text"),
        ("totalTime", "HowTo HowToDirection", "Duration"),
        ("estimatedCost", "HowTo HowToSupply", "MonetaryAmount Text"),
        ("itemListElement", "ItemList", "ListItem Text Thing"),
        ("numberOfItems", "ItemList", "Integer"),
        ("position", "ListItem CreativeWork", "Integer Text"),
        ("currency", "MonetaryAmount", "Text"),
        ("value", "MonetaryAmount", "Number"),
    )
}
DURATION = re.compile(
    r"P(?=.)(\d+D)?(T(?=.)(\d+H)?(\d+M)?(\d+S)?)?"
)  # ISO 8601-1:2019, 5.5.2, without weeks


def _kinds(name: str) -> set[str]:
    return {name}.union(*(_kinds(parent) for parent in PARENTS[name]))


def _fits(value: object, kinds: frozenset[str]) -> bool:
    if isinstance(value, dict):
        return bool(_kinds(value["@type"]) & kinds)
    if isinstance(value, int):
        return "Integer" in kinds or "Number" in kinds
    if not isinstance(value, str) or not value.strip():
        return False
    if "URL" in kinds:
        return bool(urlsplit(value).scheme or urlsplit(value).fragment)
    if "Date" in kinds:
        return bool(date.fromisoformat(value))
    return DURATION.fullmatch(value) is not None if kinds == {"Duration"} else "Text" in kinds


def _wrong(node: dict[str, object]) -> Iterator[str]:
    """What of a node, and of all within, the vocabulary does not have."""
    kinds = _kinds(str(node["@type"]))
    for name, given in node.items():
        if name.startswith("@"):
            continue
        domain, values = VOCABULARY[name]
        if not kinds & domain:
            yield f"{name} of {node['@type']}"
        for value in given if isinstance(given, list) else [given]:
            if not _fits(value, values):
                yield f"{name} is {value!r}"
            if isinstance(value, dict):
                yield from _wrong(value)


def _data(page: Page, site: SitePages) -> dict[str, object]:
    html = Renderer(template_texts(None)).page(page, site).decode()
    found = re.findall(r'<script type="application/ld\+json">(.*?)</script>', html, re.DOTALL)
    assert len(found) == 1
    data: dict[str, object] = json.loads(found[0])
    assert data.pop("@context") == "https://schema.org"
    return data


@pytest.mark.parametrize("name", NAMES)
def test_the_order_of_work_is_a_how_to_that_the_vocabulary_has(demo: Checked, name: str) -> None:
    page, site = work_page(demo.sheets[name]), site_pages(demo.workspace.site)
    data = _data(page, site)
    assert list(_wrong(data)) == []
    assert data["@type"] == "HowTo" and data["name"] == page.title
    steps, tools, supplies = (data[key] for key in ("step", "tool", "supply"))
    assert isinstance(steps, list) and isinstance(tools, list) and isinstance(supplies, list)
    assert len(steps) > 40 and len(tools) > 3 and len(supplies) > 10
    assert {s["@type"] for s in steps} == {"HowToStep"} and all(
        s["text"] or s["itemListElement"] for s in steps
    )
    assert {t["@type"] for t in tools} == {"HowToTool"} and {s["@type"] for s in supplies} == {
        "HowToSupply"
    }
    here = f"{site.address}/{name}/work/"
    there = [urljoin(here, s["url"]) for s in steps]
    anchors = [urlsplit(url).fragment for url in there]
    html = Renderer(template_texts(None)).page(page, site).decode()
    assert len(set(anchors)) == len(anchors) and all(f"id={a}>" in html for a in anchors)
    assert all(url.startswith(f"{here}#") for url in there)


def test_a_list_of_builds_numbers_them_and_names_their_addresses(
    page_of: type, site: SitePages
) -> None:
    front = replace(
        page_of("", "front"), data={"builds": (("dipper", "Dipper 3"), ("pipit", "Pipit"))}
    )
    at = replace(site, address="https://wardens.example/builds")
    data = _data(front, at)
    assert list(_wrong(data)) == []
    rows = data["itemListElement"]
    assert isinstance(rows, list)
    assert [(r["@type"], r["position"], r["name"], r["url"]) for r in rows] == [
        ("ListItem", 1, "Dipper 3", "https://wardens.example/builds/dipper/"),
        ("ListItem", 2, "Pipit", "https://wardens.example/builds/pipit/"),
    ]


def test_without_an_address_of_the_site_no_row_names_one_that_is_wrong(
    page_of: type, site: SitePages
) -> None:
    front = replace(page_of("", "front"), data={"builds": (("dipper", "Dipper 3"),)})
    rows = _data(front, replace(site, address=""))["itemListElement"]
    assert rows == [{"@type": "ListItem", "position": 1, "name": "Dipper 3"}]


@pytest.mark.parametrize(
    "node",
    [
        {"@type": "HowTo", "position": "", "name": "x"},
        {"@type": "HowTo", "tool": [{"@type": "HowToSupply", "name": "x"}]},
        {"@type": "HowTo", "totalTime": "three hours"},
        {"@type": "ItemList", "step": [{"@type": "HowToStep", "text": "x"}]},
    ],
)
def test_the_check_itself_finds_what_is_wrong(node: dict[str, object]) -> None:
    assert list(_wrong(node))
