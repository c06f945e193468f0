"""What a browser draws: the boxes of shapes and words on the screen, with the site's style and fonts."""

from dataclasses import replace
from math import radians
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser

from builder.pages.drawing import Drawing
from builder.pages.sheet_input import SheetInput
from builder.render.assets import asset_files
from builder.render.html.svg import svg

DEMO = ("curlew", "dipper", "dipper-light", "pipit", "redshank", "turnstone")
_FONTS = """async () => {
  await Promise.all(["12px Leaf", "600 12px Leaf", "12px 'Leaf Mono'"].map(f => document.fonts.load(f)));
  return document.fonts.check("12px Leaf") && document.fonts.check("12px 'Leaf Mono'");
}"""
_BOXES = """selector => [...document.querySelectorAll(selector)].map(e => {
  const b = e.getBoundingClientRect(), own = e.getBBox();
  return {text: e.textContent, left: b.left, right: b.right, top: b.top, bottom: b.bottom,
          link: (e.closest("a") || {getAttribute: () => ""}).getAttribute("href"),
          class: e.getAttribute("class") || e.parentNode.getAttribute("class") || ""};
})"""
Box = dict[str, Any]


def lay_out_assets(folder: Path) -> None:
    """Style and fonts beside a page."""
    for address, content in asset_files(None).items():
        if address.endswith((".css", ".ttf", ".woff2")):
            (folder / address).parent.mkdir(parents=True, exist_ok=True)
            (folder / address).write_bytes(content)


def empty_page(browser: Browser, folder: Path) -> Any:
    """A page with the site's style and fonts, on which drawings are shown one after another."""
    lay_out_assets(folder)
    head = '<!doctype html><meta charset="utf-8"><title>x</title>'
    head += '<link rel="stylesheet" href="assets/sheet.css">'
    body = '<main style="margin:0 16px"><figure class="illustration"></figure></main>'
    (folder / "page.html").write_text(head + body, "utf-8")
    page = browser.new_page(viewport={"width": 390, "height": 900})
    page.goto((folder / "page.html").as_uri())
    assert page.evaluate(_FONTS), (
        "the fonts of the site do not load, so that nothing can be measured"
    )
    return page


def show(page: Any, drawing: Drawing, width: int = 390) -> Any:
    """The page with this drawing alone, so wide."""
    page.set_viewport_size({"width": width, "height": 900})
    page.evaluate("h => { document.querySelector('figure').innerHTML = h; }", str(svg(drawing)))
    return page


def boxes(page: Any, selector: str) -> list[Box]:
    """Boxes of what a selector finds."""
    found: list[Box] = page.evaluate(_BOXES, selector)
    return found


def outside(words: list[Box], frame: Box) -> list[str]:
    """Words that leave the drawing."""
    return [
        w["text"]
        for w in words
        if w["left"] < frame["left"] - 0.5
        or w["right"] > frame["right"] + 0.5
        or w["top"] < frame["top"] - 0.5
        or w["bottom"] > frame["bottom"] + 0.5
    ]


def overlapping_words(words: list[Box], least: float = 1.0) -> list[tuple[str, str]]:
    """Pairs of words that cover each other by more than so many pixels both ways. Boxes of words
    hold room above and below the letters: a sixth is taken off.
    """
    out = []
    for i, a in enumerate(words):
        for b in words[:i]:
            wide = min(a["right"], b["right"]) - max(a["left"], b["left"])
            trim = (a["bottom"] - a["top"] + b["bottom"] - b["top"]) / 12
            high = min(a["bottom"], b["bottom"]) - max(a["top"], b["top"]) - trim
            if wide > least and high > least:
                out.append((a["text"], b["text"]))
    return out


def lying(sheet: SheetInput, **how: tuple[float, str]) -> SheetInput:
    """The same build with boards that lie otherwise: degrees clockwise, and the face."""
    parts = dict(sheet.build.parts)
    for key, (yaw, face) in how.items():
        fitted = parts[key]
        given = fitted.use.yaw
        assert given is not None
        turned = replace(given, value=radians(yaw))
        parts[key] = replace(
            fitted, use=fitted.use.model_copy(update={"yaw": turned, "face": face})
        )
    return replace(sheet, build=replace(sheet.build, parts=parts))
