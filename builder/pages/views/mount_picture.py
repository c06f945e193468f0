"""A picture for a step that mounts: the aircraft, with what this step puts on lit and named. A board of
the stack is shown from the side, where its height is seen; all else from above.
"""

from builder.compute.geometry.clearances import discs
from builder.compute.geometry.stack import stacked_boards
from builder.compute.order.steps.work_step import StepGroup, WorkStep
from builder.frozen import value_class
from builder.model.kinds import Motor, Propeller
from builder.pages.drawing import Drawing, Item, KeptShapes, Line, Shape, Words
from builder.pages.drawings.text_size import lines_within
from builder.pages.sheet_input import SheetInput
from builder.pages.views.board_view import TYPE
from builder.pages.views.bodies import Body, bodies, rotor_places
from builder.pages.views.from_side import SidePage, side_square
from builder.pages.views.plan_page import PlanPage
from builder.pages.views.scale import Extent, PagePlace, closed_path, extent_of

_BOLD = 1.1  # times the width of upright letters
_WIDTH = 84.0  # mm, as the pictures of boards, so that type is as large in all of them
_OWN = 50.0  # mm that the aircraft is wide, or long
_HEAD = 6.0
_FROM = 58.0  # mm from the left, where names begin
_ROW = 4.3
_SET_IN = ("lay ", "antenna ")  # steps that put a part in its place, by what their names begin with


@value_class(frozen=True, eq=False)
class Base:
    """A view that is drawn once, and how high it is."""

    shape: KeptShapes
    height: float
    above: PlanPage | None
    side: SidePage | None


def _scale(extent: Extent) -> float:
    longest = max(extent.along[1] - extent.along[0], extent.across[1] - extent.across[0])
    return _OWN / max(longest, 0.01)


def _outlines(paths: list[str], tone: str) -> list[Item]:
    return [Shape("".join(paths), tone)] if paths else []


def base_above(sheet: SheetInput) -> Base:
    """Arms, discs and outlines, nose up."""
    extent = extent_of(sheet.build)
    scale = _scale(extent)
    left = 2.0 + scale * extent.across[1]
    page = PlanPage(scale, left, _HEAD + scale * extent.along[1])
    middle = page.at(0.0, 0.0)
    items: list[Item] = [Words(middle[0], 3.4, "nose, from above", TYPE, "middle")]
    items += [Line((middle, page.at(*p[:2])), "arm") for p in rotor_places(sheet.build).values()]
    found = [b for b in bodies(sheet.build) if b.floor and not b.loose]
    items += _outlines([closed_path([page.at(*c) for c in b.floor]) for b in found], "body")
    height = _HEAD + scale * (extent.along[1] - extent.along[0]) + 1.0
    return Base(KeptShapes("from-above", tuple(items)), height, page, None)


def base_side(sheet: SheetInput) -> Base:
    """Outlines from the left side, nose to the left."""
    extent = extent_of(sheet.build)
    scale = _scale(extent)
    page = SidePage(scale, 2.0 + scale * extent.along[1], _HEAD + scale * extent.tall[1])
    places = rotor_places(sheet.build).values()
    level = min(p[2] for p in places)
    ends = page.at(extent.along[1], level), page.at(extent.along[0], level)
    items: list[Item] = [Words(2.0, 3.4, "from the left, nose left", TYPE), Line(ends, "arm")]
    found = [b for b in bodies(sheet.build) if b.floor and not b.loose]
    items += _outlines([closed_path([page.at(*c) for c in side_square(b)]) for b in found], "body")
    height = _HEAD + scale * (extent.tall[1] - extent.tall[0]) + 2.0
    return Base(KeptShapes("from-left", tuple(items)), height, None, page)


def _is_setting(step: WorkStep) -> bool:
    own = step.own is not None and step.do == "fit"
    return step.do == "mount" or own or step.id.startswith(_SET_IN)


def _key_of(sheet: SheetInput, step: WorkStep) -> str:
    """The part that a step puts on; '' where its name names none."""
    named = step.id.split(" ", 1)[-1].split(".")[0]
    if step.part in sheet.build.parts and step.part != "frame":
        return step.part
    return named if named in sheet.build.parts else ""


def parts_set(sheet: SheetInput, group: StepGroup) -> tuple[str, ...]:
    """The parts that a step puts in their places, each once."""
    if group.steps[0].id == "propellers":
        return tuple(f.key for f in sheet.build.of_kind(Propeller))
    keys = [_key_of(sheet, s) for s in group.steps if _is_setting(s)]
    return tuple(dict.fromkeys(k for k in keys if k))


def is_of_stack(sheet: SheetInput, keys: tuple[str, ...]) -> bool:
    """Whether all of these are boards of the stack, whose height tells them apart."""
    boards = {f.key for f in stacked_boards(sheet.build)}
    return bool(keys) and boards.issuperset(keys)


def _rings(sheet: SheetInput, page: PlanPage) -> list[str]:
    """The edges of the propellers."""
    out = []
    for disc in discs(sheet.build):
        x, y = page.at(disc.middle[0], disc.middle[1])
        r = page.scale * disc.radius
        arc = f"a{r:.1f} {r:.1f} 0 0 1"
        out.append(f"M{x - r:.1f} {y:.1f}{arc} {2 * r:.1f} 0{arc}{-2 * r:.1f} 0")
    return out


def _turning(sheet: SheetInput, page: PlanPage, key: str) -> tuple[list[Item], PagePlace] | None:
    """Motors as spots, propellers by their edges; None for all that does not turn."""
    part = sheet.build.parts[key].part if key in sheet.build.parts else None
    spots = [page.at(place[0], place[1]) for place in rotor_places(sheet.build).values()]
    if isinstance(part, Propeller):
        return _outlines(_rings(sheet, page), "body lit"), spots[0]
    if isinstance(part, Motor):
        return [Line((at, at), "spot") for at in spots], spots[0]
    return None


def _lit(sheet: SheetInput, base: Base, key: str) -> tuple[list[Item], PagePlace] | None:
    """Outlines of a part, and a point of it; None where the build says no place."""
    found: list[Body] = [b for b in bodies(sheet.build) if b.key == key]
    if base.above is not None:
        page = base.above
        turning = _turning(sheet, page, key)
        if turning is not None:
            return turning
        paths = [closed_path([page.at(*c) for c in b.floor]) for b in found if b.floor]
        tips = [page.at(b.at[0], b.at[1]) for b in found]
    else:
        assert base.side is not None
        side = base.side
        paths = [closed_path([side.at(*c) for c in side_square(b)]) for b in found if b.floor]
        tips = [side.at(b.at[0], b.at[2]) for b in found]
    if not tips:
        return None
    if not paths:  # its size is not stated
        x, y = tips[0]
        paths = [f"M{x:.1f} {y - 1.5:.1f}l1.5 1.5-1.5 1.5-1.5-1.5Z"]
    return _outlines(paths, "body lit"), tips[0]


def mount_picture(
    sheet: SheetInput, base: Base, shown: Item, keys: tuple[str, ...]
) -> Drawing | None:
    """The view with these parts lit, each with its name and a thin line to it; `shown` draws the
    view, or shows it again.
    """
    lit = [(key, found) for key in keys if (found := _lit(sheet, base, key)) is not None]
    if not lit:
        return None
    lit.sort(key=lambda part: (part[1][1][1], part[0]))
    items: list[Item] = [item for _, (drawn, _) in lit for item in drawn]
    y = max(_HEAD, lit[0][1][1][1] - 2.0)
    for key, (_, tip) in lit:
        items.append(Line((tip, (_FROM - 1.0, y)), "lead"))
        for line in lines_within(key, _BOLD * TYPE, _WIDTH - _FROM - 0.5):
            items.append(Words(_FROM, y + 0.35 * TYPE, line, TYPE, "start", "strong"))
            y += _ROW
    height = max(base.height, y)
    return Drawing("", _WIDTH, height, (shown, *items), f"{', '.join(k for k, _ in lit)} lit")
