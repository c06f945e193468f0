"""The reference pages show no marks of their making, and name no key that the sources do not take."""

import json
import re
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Any

import pytest

from builder.load.assumed import assumed_values
from builder.model.site import Site
from builder.model.values import words
from builder.pages.blocks import Page
from builder.pages.site.field_page import field_page
from builder.pages.site.reference_page import rules_page
from builder.pages.site.site_pages import SitePages, site_pages
from builder.render.data.schemas import schema_files
from builder.render.html.page import Renderer, template_texts


class _Words(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.words: list[str] = []
        self.codes: list[str] = []
        self._tag = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self._tag = tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)
        if self._tag == "code":
            self.codes.append(data)

    def handle_endtag(self, tag: str) -> None:
        self._tag = ""


def _shown(page: Page) -> _Words:
    site: SitePages = site_pages(Site(title="T"))
    return _Words(Renderer(template_texts(None)).page(page, site).decode())


def _known(schema: Any) -> Iterator[str]:
    """Names of properties and the values that are listed, wherever they stand in a JSON Schema."""
    if isinstance(schema, dict):
        yield from schema.get("properties", {})
        yield from map(str, schema.get("enum", ()))
        yield str(schema.get("const", ""))
        for value in schema.values():
            yield from _known(value)
    elif isinstance(schema, list):
        for value in schema:
            yield from _known(value)


@pytest.fixture(scope="module")
def known() -> frozenset[str]:
    """Keys and listed values of the schemas, the names of assumed values, and the words of lists
    that take others as well.
    """
    keys = {n for f in schema_files().values() for n in _known(json.loads(f))}
    lists = (w for v in vars(words).values() if isinstance(v, tuple) for w in v)
    return frozenset((*keys, *(v.name for v in assumed_values().values()), *lists))


@pytest.mark.parametrize("make", [rules_page, field_page])
def test_no_backtick_is_left(make: Any) -> None:
    assert [w for w in _shown(make()).words if "`" in w] == []


@pytest.mark.parametrize("make", [rules_page, field_page])
def test_each_key_that_is_named_exists(make: Any, known: frozenset[str]) -> None:
    """A single word in the letters of keys, and the first key of a pair such as `at_most: ...`."""
    codes = _shown(make()).codes
    keys = [re.match(r"([a-z][a-z_]*)(?:: .*)?$", code) for code in codes]
    named = {k[1] for k in keys if k is not None}
    assert len(named) > 20
    assert named - known - {"yes", "no"} == set()
