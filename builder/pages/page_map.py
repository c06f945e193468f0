"""The map of a build's pages: which page holds which section, under which anchors, and for whom.

Links, the forwarding of old addresses and the reference are made from this one table; what a
section is called within an address never changes, whichever page it is on.
"""

from collections.abc import Iterable
from functools import cache

from builder.frozen import value_class


@value_class(frozen=True, slots=True)
class Placed:
    """A section by its anchor. `starts` begin the anchors within it that are many: rows, steps."""

    anchor: str
    words: str
    within: tuple[str, ...] = ()
    starts: tuple[str, ...] = ()

    def has(self, anchor: str) -> bool:
        """Whether an anchor is the section's own or lies within it."""
        return anchor == self.anchor or anchor in self.within or anchor.startswith(self.starts)


@value_class(frozen=True, slots=True)
class BuildPage:
    """A page of a build. `name` is its folder ('' for the sheet), `title` what links call it,
    `reader` whom it serves, `formerly` the anchors of sections that were on it.
    """

    name: str
    title: str
    reader: str
    holds: tuple[Placed, ...]
    formerly: tuple[str, ...] = ()

    @property
    def file(self) -> str:
        """Where it is in the build's folder."""
        return f"{self.name}/index.html" if self.name else "index.html"


SHEET = BuildPage(
    "",
    "Sheet",
    "Who wonders whether to copy it: what it is, what it weighs and costs, how long it flies.",
    (Placed("glance", "At a glance"),),
    (
        *("before", "parts", "weight", "budget", "wiring", "power", "order", "flight"),
        *("questions", "changes", "not-judged", "how-made"),
    ),
)
PARTS = BuildPage(
    "parts",
    "Parts",
    "Who buys: the parts with their weights and prices, and what may take their place.",
    (
        Placed(
            "parts",
            "Parts",
            ("parts-table", "screw-list", "screws", "variant", "view-numbers"),
            ("alternatives", "part-"),
        ),
        Placed(
            "weight",
            "Weight",
            (
                "limits",
                "reconciliation",
                "weight-table",
                "balance",
                "balance-table",
                "hover-shares",
            ),
        ),
        Placed("budget", "Budget", (), ("budget-",)),
        Placed("photographs", "Photographs"),
        Placed("recording", "Recording", (), ("moment-",)),
        Placed("given-files", "Files that go with it", (), ("given-",)),
        Placed("questions", "Questions", (), ("ask-",)),
        Placed("changes", "Changes", (), ("change-",)),
        Placed("origin", "Where it comes from"),
    ),
)
DRAWINGS = BuildPage(
    "drawings",
    "Drawings",
    "Who looks rather than reads: the aircraft to scale, its stack in section and apart.",
    (
        Placed("aircraft", "Aircraft", ("view-above", "view-side", "view-below")),
        Placed("stack", "Stack", ("stack-section", "stack-apart")),
        Placed("joint-heat", "Hardest joints"),
    ),
)
BUY = BuildPage(
    "buy",
    "Buy",
    "Who orders: what to buy at which shop, what it comes to, and what may stand in.",
    (Placed("buy", "Buy", ("buy-sums", "buy-left"), ("buy-at-", "buy-part-")),),
    ("choose",),
)
WIRING = BuildPage(
    "wiring",
    "Wiring",
    "Who wires: every contact and where it goes, and what each supply carries.",
    (
        Placed(
            "wiring",
            "Wiring",
            ("wiring-bundles", "wiring-drawing", "motors", "serial", "cuts"),
            ("pin-", "board-"),
        ),
        Placed("power", "Power"),
    ),
)
WORK = BuildPage(
    "work",
    "Order of work",
    "Who is at the bench: cautions, what to get ready, every step, the first power-up.",
    (
        Placed("before", "Before you start", (), ("caution-",)),
        Placed("lay-out", "Get ready"),
        Placed("soldering-order", "Soldering order"),
        Placed("first-power-up", "First power-up"),
        Placed("order", "Order of work", ("as-built",), ("step-", "at-gate-", "gate-")),
    ),
    ("setup", "upkeep"),
)
SETUP = BuildPage(
    "setup",
    "Setup",
    "Who sets it up: ports, motors, switches, radio, and what to try before the first flight.",
    (Placed("setup", "Setup", ("radio", "channel-table"), ("setup-", "radio-")),),
)
FLIGHT = BuildPage(
    "flight",
    "Flight",
    "Who flies it: power, time in the air with each battery, upkeep and history.",
    (
        Placed("flight", "Flight", ("packs-by-size",), ("flight-", "full-throttle", "pack-sizes")),
        Placed("upkeep", "Keeping it flying", ("history",), ("upkeep-",)),
    ),
)
NUMBERS = BuildPage(
    "numbers",
    "Numbers",
    "Who doubts a number: what was checked and what was not, and how each number was made.",
    (
        Placed("not-judged", "Checks"),
        Placed("how-made", "How each number was made"),
        Placed("read", "Read, not computed", ("formulas", "unknown"), ("topic-", "f-", "/")),
    ),
)
TOPIC_PAGES = (PARTS, BUY, DRAWINGS, WIRING, WORK, SETUP, FLIGHT, NUMBERS)
PAGES_OF_BUILD = (SHEET, *TOPIC_PAGES)
# The bench sheet as a page: what the pages above hold, arranged for paper, and what is only there.
PRINTED = BuildPage(
    "bench-sheet",
    "Bench sheet",
    "Who prints: the bench sheet as a page that any browser prints, with the field card.",
    (
        Placed("bench-glance", "At a glance"),
        Placed("bench-before", "Before you start"),
        Placed("bench-lay-out", "Get ready"),
        Placed("bench-parts", "Parts to get ready"),
        Placed("bench-cutting", "Wires to cut, screws to sort"),
        Placed("bench-wiring", "All wires"),
        Placed("bench-order", "Order of work", (), ("at-board-",)),
        Placed("bench-setup", "Setup"),
        Placed("bench-as-built", "As built"),
        Placed("bench-field-card", "Field card", (), ("field-",)),
    ),
)
# The work again, one step a screen: the steps and gates of the page above have the same anchors.
BENCH = BuildPage(
    "bench",
    "At the bench",
    "Who has the iron in the hand: one step a screen, readings checked as they are typed.",
    (
        Placed("do", "The work, step by step", (), ("to-gate-",)),
        Placed("trouble", "This does not work"),
        Placed("field", "On the field"),
        Placed("kept", "What is kept on this device"),
    ),
)
# Only of a build that has chapters.
GUIDE = BuildPage(
    "guide",
    "Guide",
    "Who wants to read how it came about: the builder's own chapters, one a page.",
    (Placed("chapters", "Chapters", (), ("chapter-",)),),
)
# It reads the whole shelf, so it is made apart from the others.
CHOOSE = BuildPage(
    "choose",
    "Swaps",
    "Who wants it lighter, cheaper or longer in the air: what the parts of the shelf can do.",
    (
        Placed("choose", "What swaps can do", ("choose-table",), ("choice-",)),
        Placed("choose-limits", "Under a limit", (), ("limit-",)),
    ),
)
ALL_PAGES = (*PAGES_OF_BUILD, BENCH, PRINTED)


@cache
def page_with(anchor: str) -> BuildPage:
    """The page that holds an anchor; KeyError for one that no page has."""
    placed = [(p, page) for page in (*ALL_PAGES, CHOOSE) for p in page.holds if p.has(anchor)]
    own = [page for p, page in placed if anchor == p.anchor or anchor in p.within]
    if not placed:
        raise KeyError(anchor)
    return own[0] if own else placed[0][1]


def page_address(build: str, page: BuildPage) -> str:
    """Where a page is, from the site's root."""
    return f"{build}/{page.file}"


def address_of(build: str, anchor: str) -> str:
    """Where a section, step or row of a build is, from the site's root."""
    return f"{page_address(build, page_with(anchor))}#{anchor}"


def number_address(build: str, anchor: str) -> str:
    """Where a number's derivation is, from the site's root."""
    return f"{page_address(build, NUMBERS)}#{anchor}"


def moved_from(page: BuildPage) -> Iterable[tuple[Placed, BuildPage]]:
    """The sections that were on a page, each with the page that holds it now."""
    for anchor in page.formerly:
        now = page_with(anchor)
        yield next(p for p in now.holds if p.anchor == anchor), now
