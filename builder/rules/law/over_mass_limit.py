"""Heavier than a limit of the site.

Checks: all-up weight with each pack (payload on), or dry weight, against each limit of site.yaml, before rounding.
Why: two grams decide which rules of the air apply, and strangers copy a sheet with their own money and hands.
Example: 171 g dry with a 79 g pack weigh 250 g, which is not less than 250 g.
Mend: fly a lighter pack, or swap a part; the sheet names the single changes that do it. Ask the authority.
Source: the limit's own source, in site.yaml; the arithmetic is a definition
"""

from collections.abc import Iterator

from builder.compute.figure import Figure
from builder.compute.limits import Margin
from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK
SIGNAL = None
CLOSE = 0.05  # a chance of being over that is worth a word


def _ways(margins: list[Margin]) -> str:
    ways = {w.label: w for m in margins for w in m.ways}
    if not ways:
        return "No single swap or pack on the shelf brings it under. Ask the authority where you fly what applies then."
    names = ", ".join(f"{w.label} ({w.becomes.value * 1000:.1f} g)" for w in ways.values())
    return f"Any one of these brings it under: {names}."


def _name(margin: Margin) -> str:
    return f"all-up with {margin.pack}" if margin.pack else "dry"


def _over(margins: list[Margin]) -> Found:
    """One finding for all packs that are over one limit."""
    first = margins[0]
    limit = first.limit.mass.value
    rule = "has to be less than" if first.limit.strict else "may be up to"
    weights = ", ".join(
        f"{m.mass.value * 1000:.2f} g {_name(m)} ({(m.mass.value - limit) * 1000:.2f} g over)" for m in margins
    )
    text = f"It weighs {weights} and {rule} {limit * 1000:.2f} g ({first.limit.name})."
    return Found(text, _ways(margins), first.where)


def _close(margin: Margin, chance: float) -> Found:
    odds = f"with a chance of {100 * chance:.0f} % of being over"
    text = f"{_name(margin).capitalize()} it keeps {margin.limit.name}, {odds}."
    return Found(text, "Weigh it with a finer scale, or leave more room.", margin.where)


def check(case: Case) -> Iterator[Outcome]:
    """Each limit with each pack."""
    over: dict[str, list[Margin]] = {}
    for m in case.results.margins:
        if m.within is None:
            lacking = ", ".join(m.mass.lacks)
            yield NotJudged(f"{_name(m)} against {m.limit.name}: weight of {lacking} unknown", m.where)
        elif not m.within:
            over.setdefault(m.limit.name, []).append(m)
        elif isinstance(m.chance_over, Figure) and m.chance_over.value > CLOSE:
            yield _close(m, m.chance_over.value)
        else:
            yield Judged()
    for margins in over.values():
        yield _over(margins)
