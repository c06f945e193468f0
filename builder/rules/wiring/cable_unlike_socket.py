"""A cable or a plug that does not go into its socket.

Checks: for each plugged joint, the contacts and the pitch of both sockets and of the cable between
them. Where a plug goes into a socket without a cable, both have the same contacts, pitch and type.
`use` names a cable, and each cable is plugged as often as the build has it.
Why: a plug of another pitch or with fewer contacts does not go in, or goes in shifted by one. Then
the battery is on a signal.
Example: a cable of 1.25 mm between two sockets of 1.0 mm.
Mend: take a cable that is made for both sockets.
Source: common practice, no source
"""

from collections import Counter
from collections.abc import Iterator

from builder.compute.circuit.contacts import cable_of
from builder.diagnostics.finding import Severity, Signal
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, PlugJoin
from builder.model.kinds import Cable
from builder.rules.compare import clash
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, say

SEVERITY = Severity.FAULT
SIGNAL = Signal.WARNING
_SAME = assumed("wires/pitch")
_CABLE = "Take a cable that is made for both sockets."


def _sockets(build: Build, join: PlugJoin) -> list[tuple[str, float | None, int, Where]]:
    """Name, pitch and number of contacts of both ends, with their place on the shelf."""
    out = []
    for end in (join.start, join.end):
        socket, part = build.socket(end), build.parts[end[0]]
        pitch = socket.pitch.value if socket.pitch is not None else None
        at = part.shelf_where.at("sockets", end[2])
        out.append((f"{end[0]}.{end[2]}", pitch, len(socket.contacts), at))
    return out


def _pitches(
    one: tuple[str, float | None, Where], two: tuple[str, float | None, Where], at: Where
) -> Outcome | None:
    (name, first, where), (other, second, there) = one, two
    if first is None or second is None:
        return None
    if abs(first - second) <= _SAME:
        return Judged()
    text = say(
        "{} has a pitch of {}, and {} of {}.", name, given(first, "m"), other, given(second, "m")
    )
    return Found(text, _CABLE, at, see=(where.at("pitch"), there.at("pitch")))


def _through_cable(build: Build, join: PlugJoin) -> Iterator[Outcome | None]:
    cable = cable_of(build, join)
    if cable is None:
        return
    ways, pitch = cable.part.contacts, cable.part.pitch
    own = (cable.key, pitch.value if pitch is not None else None, cable.shelf_where)
    for name, apart, contacts, at in _sockets(build, join):
        yield _pitches(own, (name, apart, at), join.where)
        if ways is None:
            continue
        if ways == contacts:
            yield Judged()
            continue
        text = f"{cable.key} has {ways} contacts, and {name} has {contacts}."
        yield clash(text, _CABLE, join.where, cable.shelf_where.at("contacts"))


def _directly(build: Build, join: PlugJoin) -> Iterator[Outcome | None]:
    """Two that plug into each other."""
    (a, first, ways, where), (b, second, others, there) = _sockets(build, join)
    one, two = build.socket(join.start), build.socket(join.end)
    if one.gender is None or two.gender is None or one.gender == two.gender:
        yield NotJudged(f"the cable between {a} and {b}, which stands under use", join.where)
        return
    yield _pitches((a, first, where), (b, second, there), join.where)
    if ways != others:
        text = f"{a} has {ways} contacts, and {b} has {others}."
        yield Found(text, "Take parts whose plugs fit.", join.where, see=(where, there))
    if one.type is not None and two.type is not None and one.type.casefold() != two.type.casefold():
        text = f"{a} is {one.type!r}, and {b} is {two.type!r}."
        yield Found(
            text,
            "Take parts whose plugs fit.",
            join.where,
            see=(where.at("type"), there.at("type")),
        )
    yield Judged()


def _uses(build: Build) -> Iterator[Outcome]:
    used = Counter(j.plug.use for j in build.plugs if j.plug.use is not None)
    for join in build.plugs:
        name = join.plug.use
        fitted = build.parts.get(name or "")
        if name is None or fitted is None:
            continue
        if not isinstance(fitted.part, Cable):
            text = f"{name} is a {fitted.part.kind}; a plugged joint uses a cable."
            yield clash(text, "Name a part of kind cable.", join.where.at("use"), fitted.where)
        elif used[name] > fitted.count:
            text = f"{name} is plugged {used[name]} times, and the build has {fitted.count}."
            yield clash(
                text, "Count the cables, or name another.", join.where.at("use"), fitted.where
            )
        else:
            yield Judged()


def check(case: Case) -> Iterator[Outcome]:
    build = case.build
    yield from _uses(build)
    for join in build.plugs:
        looks = _through_cable if join.plug.use is not None else _directly
        said = [s for s in looks(build, join) if s is not None]
        if not said:
            yield NotJudged(
                f"pitch and contacts between {join.plug.from_} and {join.plug.to}", join.where
            )
        yield from said
