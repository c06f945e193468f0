"""The card that stands for a sheet where somebody shares its address: its name, its picture, its
figures at a glance, its weights.
"""

from dataclasses import dataclass, replace

from builder.pages.blocks import Facts, Illustration, Picture
from builder.pages.drawing import Drawing, Rectangle
from builder.pages.plots.weight_bar import weight_bar
from builder.pages.retired import retired_in_words
from builder.pages.sections.at_a_glance import card_facts, sheet_picture
from builder.pages.sheet_input import SheetInput
from builder.pages.site.site_pages import SitePages

MOST = 5  # figures that fit


@dataclass(frozen=True, slots=True)
class Card:
    """What the picture shows; `draft` marks it, as it marks every page, and so does `retired`, which
    says what took its place. `picture` is the one that the sheet begins with.
    """

    build: str
    title: str
    summary: str
    site: str
    facts: Facts
    bar: Illustration | None
    draft: bool
    picture: Picture | Illustration | None = None
    retired: str = ""


_CARD = (170.0, 5.0)  # the bar's width and that of a row, in mm: it is as wide as the card


def card_address(build: str) -> str:
    """Where the picture lies."""
    return f"{build}/card.png"


def card(sheet: SheetInput, site: SitePages) -> Card:
    """The card of a build."""
    build = sheet.build
    drawn = weight_bar(build.name, sheet.results.mass, "-card", _CARD)
    bar = None
    if (
        drawn is not None
    ):  # the bar alone, with its words below: they are read at the size of a thumbnail
        pieces = tuple(i for i in drawn.items if isinstance(i, Rectangle))
        bar = Illustration(
            Drawing(drawn.name, drawn.width, pieces[0].height, pieces, drawn.alt), drawn.alt
        )
    facts = Facts(card_facts(sheet).items[:MOST], large=True)
    picture = sheet_picture(sheet)
    shown = replace(picture, caption="") if picture is not None else None
    summary, draft = build.source.summary, sheet.draft
    words = retired_in_words(build.source.status, build.source.superseded_by or "")
    return Card(build.name, build.title, summary, site.title, facts, bar, draft, shown, words)
