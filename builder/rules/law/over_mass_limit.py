"""Heavier than a limit of the site.

Checks: flying weight (all-up) with each battery and the payload, or dry weight, against each limit of
site.yaml, before rounding. Each reading of the scale is checked too, with what changed since.
Why: two grams decide which rules of the air apply, and strangers copy a sheet with their own money
and hands.
Example: 171 g dry with a 79 g battery weigh 250 g, which is not less than 250 g.
Mend: fly it with a lighter battery of its own, or swap a part; the finding names what does it. Ask the
authority.
Source: the limit's own source, in site.yaml; the arithmetic is a definition
"""

from collections.abc import Iterator

from builder.compute.figures.figure import Figure
from builder.compute.weight.limits import Margin, is_within
from builder.diagnostics.finding import Severity
from builder.diagnostics.sentence import Amount, joined
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import chance, figure, made, say

SEVERITY = Severity.REMARK
SIGNAL = None
CLOSE = assumed("weight and size/chance-over")


def _ways(over: list[Margin], kept: list[Margin], own: set[str]) -> str:
    """What brings it under: a pack that the build has, a swap of one part, a pack of the shelf;
    said for each pack.
    """
    said: list[str] = []
    if kept:
        packs = joined(" or ", (say("{} ({})", m.pack, m.mass) for m in kept))
        said.append(say("Fly it with {}.", packs))
    for m in over:
        parts = joined(
            ", ", (say("{} as {} ({})", w.label, w.what, w.becomes) for w in m.ways if not w.pack)
        )
        others = [w for w in m.ways if w.pack and w.shelf not in own]
        packs = joined(", ", (say("{} ({})", w.label, w.becomes) for w in others))
        if parts:
            said.append(
                say("{}, one swap does it: {}.", f"With {m.pack}" if m.pack else "Dry", parts)
            )
        if packs:
            said.append(say("A battery of the shelf in place of {} does it: {}.", m.pack, packs))
    if not said:
        said.append("No other battery and no single swap on the shelf brings it under.")
        said.append("Ask the authority where you fly what applies then.")
    return joined(" ", said)


def _name(margin: Margin) -> str:
    return f"with {margin.flown_with}" if margin.pack else "dry"


def _weight(margin: Margin, limit: float) -> str:
    """What it weighs and by how much that is over, as the table of limits shows it."""
    mass = figure(margin.mass, 2)
    over = made(margin.mass.value - limit, "kg", margin.left.key, 2, mass.prefix)
    return say("{} {} ({} over)", mass, _name(margin), over)


def _over(build: Build, margins: list[Margin], kept: list[Margin]) -> Found:
    """One finding for all packs that are over one limit; `kept` are the build's margins that are
    not.
    """
    first = margins[0]
    limit = first.limit.mass.value
    rule = "has to weigh less than" if first.limit.strict else "may weigh up to"
    weights = joined(", ", (_weight(m, limit) for m in margins))
    text = say(
        "{} weighs {}. It {} {} ({}).",
        build.name,
        weights,
        rule,
        figure(first.bound, 2),
        first.limit.name,
    )
    own = {p.shelf for p in build.packs.values()}
    return Found(text, _ways(margins, kept, own), _at(build, first), see=(first.where,))


def _at(build: Build, margin: Margin) -> Where:
    """What has to be changed: the battery that it is flown with, else the parts; never the limit."""
    pack = build.packs.get(margin.pack)
    return pack.where if pack is not None else build.where("parts")


def _close(build: Build, margin: Margin, odds: Amount) -> Found:
    text = say(
        "{} {} keeps {}, with a chance of {} of being over.",
        build.name,
        _name(margin),
        margin.limit.name,
        odds,
    )
    hint = "Weigh it with a finer scale, or leave more room."
    return Found(text, hint, _at(build, margin), see=(margin.where,))


def _shown_over(case: Case, margin: Margin) -> Found | None:
    """What the scale showed counts by itself: other readings do not make it lighter."""
    limit = margin.limit
    for reading in case.whole.mass.readings:
        of_it = reading.whole and reading.what == (margin.pack or "dry")
        if of_it and not is_within(reading.now.value, limit.mass.value, strict=limit.strict):
            text = say(
                "The scale showed {} for {}, {}. That is over {} ({}).",
                figure(reading.now, 2),
                case.build.name,
                reading.words,
                figure(margin.bound, 2),
                limit.name,
            )
            hint = "Weigh it again. Until then take it as over."
            return Found(text, hint, reading.weighed.where, see=(margin.where,))
    return None


def check(case: Case) -> Iterator[Outcome]:
    """Each limit with each pack."""
    over: dict[str, list[Margin]] = {}
    for m in case.whole.margins:
        if m.within is None:
            lacking = ", ".join(m.mass.lacks)
            yield NotJudged(
                f"{_name(m)} against {m.limit.name}: weight of {lacking} unknown", m.where
            )
        elif not m.within:
            over.setdefault(m.limit.name, []).append(m)
        elif (shown := _shown_over(case, m)) is not None:
            yield shown
        elif isinstance(m.chance_over, Figure) and m.chance_over.value > CLOSE:
            yield _close(case.build, m, chance(m.chance_over))
        else:
            yield Judged()
    for name, margins in over.items():
        kept = [m for m in case.whole.margins if m.limit.name == name and m.within]
        yield _over(case.build, margins, kept)
