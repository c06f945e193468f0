"""Takes the picture of a sheet that the README shows, from the demo as it is published now.

    .venv/bin/python .ci/take_picture.py [SITE]     writes .ci/picture-of-a-sheet.png

It needs a browser, as the tests do. Without SITE the demo is published into a folder that is taken away again.
"""

import io
import shutil
import sys
import tempfile
from pathlib import Path

from PIL import Image
from playwright.sync_api import sync_playwright

from builder.options import PublishOptions
from builder.pipeline.publish import publish_site

ROOT = Path(__file__).resolve().parent.parent
PICTURE = ROOT / ".ci" / "picture-of-a-sheet.png"
SHEET = "dipper/index.html"
BROWSERS = ("chromium-headless-shell", "chromium", "chromium-browser")
WIDTH, HEIGHT = 1280, 1000  # pixels of the window, of which all is shown
COLOURS = 64  # enough for lines and letters; a photograph would need more


def published(folder: Path) -> Path:
    """The demo, published without PDFs."""
    shutil.copytree(ROOT / "builds", folder / "builds")
    publish_site(PublishOptions(folder, pdf=False))
    return folder / "site"


def taken(site: Path) -> bytes:
    """The top of the sheet as a reader sees it, in light colours."""
    browser = next(filter(None, map(shutil.which, BROWSERS)), None)
    options = ["--no-sandbox", "--disable-dev-shm-usage"]
    with (
        sync_playwright() as playwright,
        playwright.chromium.launch(executable_path=browser, args=options) as window,
    ):
        page = window.new_page(viewport={"width": WIDTH, "height": HEIGHT}, color_scheme="light")
        page.goto((site / SHEET).resolve().as_uri())
        page.evaluate("document.fonts.ready")
        page.wait_for_timeout(300)
        return page.screenshot()


def main() -> None:
    """Writes the picture with few colours, so that it stays small."""
    with tempfile.TemporaryDirectory() as folder:
        site = Path(sys.argv[1]) if len(sys.argv) > 1 else published(Path(folder))
        image = Image.open(io.BytesIO(taken(site))).convert("RGB")
    image.quantize(COLOURS, method=Image.Quantize.MEDIANCUT).save(PICTURE, "PNG", optimize=True)
    print(f"{PICTURE.relative_to(ROOT)}: {PICTURE.stat().st_size // 1000} kB")


if __name__ == "__main__":
    main()
