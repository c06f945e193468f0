"""One page of a browser for all drawings of these tests."""

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.pages.views.drawn import empty_page


@pytest.fixture(scope="session")
def canvas(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """A page on which drawings are shown one after another."""
    page = empty_page(browser, tmp_path_factory.mktemp("canvas"))
    yield page
    page.close()
