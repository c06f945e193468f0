"""The first line of a comparison, in words, from the figures."""

from collections.abc import Sequence

from builder.compute.compare.difference import Difference
from builder.compute.compare.part_changes import PartChange
from builder.compute.figures.figure import Figure
from builder.model.build import Build
from builder.pages.numbers import money
from builder.rounding import rounded


def _lighter(difference: Difference) -> str:
    pair = difference.dry
    if not isinstance(pair.change, Figure):
        return "their weights cannot be compared"
    grams = 1000 * pair.change.value
    known = "" if pair.whole else ", as far as weights are known"
    if abs(grams) < 0.05:
        return f"they weigh the same{known}"
    who, how = (difference.second, "lighter") if grams < 0 else (difference.second, "heavier")
    text = f"{who} is {rounded(abs(grams), 1)} g {how} dry{known}"
    if not pair.real:
        return text + ": too close to call"
    return text + _mostly(difference, grams)


def _mostly(difference: Difference, grams: float) -> str:
    """The place that did most of it; only a place that changed the same way can be a part of the
    change.
    """
    found = [
        (1000 * p.grams.value, p)
        for p in difference.parts
        if isinstance(p.grams, Figure) and p.how != "same" and p.grams.value * grams > 0
    ]
    if not found:
        return ""
    most, part = max(found, key=lambda f: abs(f[0]))
    if abs(most) < 0.5:
        return ""
    shown = f"{rounded(abs(most), 1)} g{_each(abs(most), part)}"
    whole = abs(most) <= abs(grams) + 0.05
    return f", of which {part.key} {shown}" if whole else f", though {part.key} alone makes {shown}"


def _each(grams: float, part: PartChange) -> str:
    """What each of several pieces adds, to as many digits as it takes for the product to come out
    as shown.
    """
    count = part.counts[0]
    if count < 2 or part.counts != (count, count):
        return ""
    for places in (1, 2, 3):
        each = rounded(grams / count, places)
        if rounded(float(each) * count, 1) == rounded(grams, 1):
            return f" ({count} \u00d7 {each} g)"
    return ""


def _longest(difference: Difference) -> str:
    """The longest flights of each, each on the battery that gives it; '' where one has none."""
    found = difference.of_use("endurance", "longest")
    if found is None:
        return ""
    pair, packs = found[0], found[1].packs
    if not isinstance(pair.change, Figure):
        return ""
    if pair.alike:
        return f"their longest flights ({packs[0]}; {packs[1]}) are equally long"
    if not pair.real:
        return f"their longest flights ({packs[0]}; {packs[1]}) are too close to call"
    minutes = pair.change.value / 60
    longer = f"{rounded(abs(minutes), 1)} min {'longer' if minutes > 0 else 'shorter'}"
    first, second = difference.first, difference.second
    return f"{second}'s longest flight ({packs[1]}) is {longer} than {first}'s ({packs[0]})"


def _flights_of(build: Build) -> int:
    return sum(1 for f in build.source.flights if not f.leave_out)


def _rests_on(a: Build, b: Build) -> str:
    """Which of two builds flew less often; '' where both flew alike."""
    flown = [_flights_of(x) for x in (a, b)]
    if min(flown) == max(flown):
        return ""
    fewer, more = (a, b) if flown[0] < flown[1] else (b, a)
    logged = f"{min(flown)} logged flight{'s' if min(flown) != 1 else ''}"
    return f"{fewer.name} rests on {logged}, {more.name} on {max(flown)}"


def verdict_line(difference: Difference, a: Build, b: Build, limits: Sequence[str] = ()) -> str:
    """A few sentences, `limits` among them: first of all which of the two is only planned, then what
    differs, and at the end which was not flown, or rests on fewer flights.
    """
    planned = [x.name for x in (a, b) if x.source.status == "planned"]
    said = [f"{name} is only planned: its figures are expected, not flown" for name in planned]
    unflown = [x.name for x in (a, b) if x.name not in planned and not _flights_of(x)]
    rests = "" if planned or unflown else _rests_on(a, b)
    said.append(_lighter(difference))
    first, second = difference.price
    if first.currency == second.currency and first.minor != second.minor:
        gap = money(type(first)(abs(second.minor - first.minor), first.currency))
        known = ", as far as prices are known" if any(difference.unpriced) else ""
        said.append(
            f"{difference.second}'s parts cost {gap}"
            f" {'more' if second.minor > first.minor else 'less'}{known}"
        )
    said += list(limits)
    said.append(_longest(difference))
    said += [f"{name} has no logged flight: its times are expected, not flown" for name in unflown]
    said.append(rests)
    return " ".join(f"{words[:1].upper()}{words[1:]}." for words in said if words)
