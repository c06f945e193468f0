"""The card of a build as a picture, for the places where its address is shared: WeasyPrint sets it,
pdfium draws it.
"""

import io
from collections.abc import Collection, Mapping

import pypdfium2
from PIL import Image

from builder.pages.site.card import Card
from builder.render.html.block_html import blocks_html
from builder.render.html.inline_html import HtmlContext
from builder.render.html.page import environment
from builder.render.paper.pdf import OnlyOurs, style
from builder.render.paper.printer import CSS, HTML

WIDTH, HEIGHT = (
    1200,
    630,
)  # pixels, the shape that readers of Open Graph show whole (common practice, no source)
_EMPTY = " ".join(f"@{box} {{ content: none }}" for box in ("top-left", "top-right", "bottom-left"))
_PAGE = f"@page {{ size: {WIDTH}px {HEIGHT}px; margin: 0; padding: 0; border: 0; {_EMPTY} }}"


def card_html(card: Card, texts: Mapping[str, str], pictures: Collection[str] = ()) -> str:
    """The card as the page that is drawn, with its picture where that is drawn or at hand."""
    where = HtmlContext("", card.build, paper=True, pictures=frozenset(pictures))
    picture = blocks_html((card.picture,) if card.picture is not None else (), where)
    body = blocks_html((card.facts, *((card.bar,) if card.bar is not None else ())), where)
    return (
        environment(texts).get_template("card.html").render(card=card, body=body, picture=picture)
    )


def card_png(
    card: Card, texts: Mapping[str, str], pictures: Mapping[str, bytes] | None = None
) -> bytes:
    """The picture's bytes, the same for the same card; `pictures` are those of the build at hand."""
    given = pictures or {}
    css, fonts = style()
    html = HTML(string=card_html(card, texts, given), url_fetcher=OnlyOurs(given))
    paper = html.write_pdf(stylesheets=[css, CSS(string=_PAGE)], font_config=fonts)
    document = pypdfium2.PdfDocument(paper)
    try:
        image = (
            document[0].render(scale=96 / 72).to_pil().convert("RGB").crop((0, 0, WIDTH, HEIGHT))
        )
    finally:
        document.close()
    out = io.BytesIO()
    image.quantize(96, method=Image.Quantize.FASTOCTREE).save(out, "PNG")
    return out.getvalue()
