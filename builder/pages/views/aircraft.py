"""The aircraft's views as blocks of pages, each with its title and what has no place in it."""

from builder.model.build import Build
from builder.model.kinds import Consumable, GroundGear, Hardware, Tool
from builder.pages.blocks import Block, Illustration, Section
from builder.pages.page_map import PARTS, page_address
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.part_numbers import pack_key, part_numbers
from builder.pages.views.bodies import bodies, rotor_places
from builder.pages.views.from_above import view_from_above
from builder.pages.views.from_below import view_from_below
from builder.pages.views.from_side import view_from_side
from builder.pages.views.part_words import part_words

_SIGNS = (
    "Broken outlines are hidden below another part, chain lines are put on last. A rhomb is a part"
    " whose size is not stated; arms are lines, since their width is not stated. Dotted lines are bundles"
    " of wires, straight from edge to edge: nobody states their way."
)


def _without_place(build: Build) -> str:
    """The numbers of flying parts that no view shows, since the build says no place."""
    numbers, drawn = part_numbers(build), {b.key for b in bodies(build)}
    kinds = Consumable | GroundGear | Tool | Hardware
    own = [f.key for f in build.parts.values() if not isinstance(f.part, kinds)]
    airframe = {
        f.key for f in build.parts.values() if f.part.KIND in ("frame", "motor", "propeller")
    }
    lacking = [k for k in own if k not in drawn | airframe]
    lacking += [k for k in map(pack_key, build.packs) if k not in drawn]
    if not lacking:
        return ""
    said = ", ".join(f"{numbers[k]} {k}" for k in lacking)
    return f" No place is stated for {said}."


def above_plain(sheet: SheetInput) -> Illustration | None:
    """The picture of a sheet that has none of its own."""
    drawn = view_from_above(sheet, numbered=False)
    return Illustration(drawn, "From above, to scale") if drawn is not None else None


def above_on_parts_page(sheet: SheetInput) -> list[Block]:
    """The view from above over the parts table, whose numbers it shows."""
    drawn = view_from_above(sheet, numbered=True)
    if drawn is None:
        return []
    caption = "From above, to scale. Numbers are those of the table."
    return [Illustration(drawn, caption, "view-numbers")]


def aircraft_section(sheet: SheetInput) -> Section:
    """Both views with what each part says; empty where no motor has a place."""
    build = sheet.build
    if not rotor_places(build):
        return Section("aircraft", "Aircraft", ())
    words = part_words(sheet, part_numbers(build))
    link = page_address(build.name, PARTS)
    above = view_from_above(sheet, numbered=True, words=words, link=link)
    side = view_from_side(sheet, words=words, link=link)
    below = view_from_below(sheet, words=words, link=link)
    assert above is not None and side is not None and below is not None
    turned = Illustration(
        above,
        "From above, nose up, to scale. Point to a number for name, weight and step; it leads to"
        f" the parts table. {_SIGNS}{_without_place(build)} {_centre_words(sheet)}".strip(),
        "view-above",
    )
    from_left = Illustration(side, "From the left side, at the same scale.", "view-side")
    upside = Illustration(
        below,
        "From below, nose up, mirrored: left is drawn right, as R and L say. Which way the motors turn"
        " is told from above alone.",
        "view-below",
    )
    return Section("aircraft", "Aircraft", (turned, from_left, upside))


def _centre_words(sheet: SheetInput) -> str:
    """What the sign in the middle stands for."""
    balance = sheet.results.balance
    if balance is None or not balance.packs:
        return "The centre of mass is not known."
    packs = " and ".join(p.pack for p in balance.packs)
    return (
        f"The circle with two filled quarters is the centre of mass with {packs}; its cross holds"
        " four cases of five."
    )
