"""Balance: centre of mass from the places of the parts, where the pack trims it, and what each
motor then carries.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from builder.compute.figures.figure import Figure, MaybeFigure, Unknown, apply, constant, leaf
from builder.compute.figures.sloped_formula import formula
from builder.compute.figures.slopes import centre_of_masses_partials
from builder.compute.figures.sums import difference, total
from builder.compute.formulas.weight.mass import centre_of_masses, symmetric_hover_share, trim_place
from builder.compute.weight.mass import MassTable
from builder.compute.weight.mass_lines import MassLine
from builder.diagnostics.where import Where
from builder.load.assumed import assumed
from builder.model.build import Build, Fitted
from builder.model.kinds import Frame, Motor, Propeller
from builder.model.values.measures import Position

PLACE_SPREAD = assumed("weight and size/place-spread")
_AXES = ("x", "y")
_AXIS_WORDS = {"x": "fore and aft", "y": "left and right"}


@dataclass(frozen=True, eq=False)
class PackBalance:
    """With one pack, in m from the rotors' centre, forward and left positive: offset, where the
    pack trims it.
    """

    pack: str
    along: MaybeFigure
    across: MaybeFigure
    trim_along: MaybeFigure
    pack_along: MaybeFigure
    shares: Mapping[str, MaybeFigure]


@dataclass(frozen=True, eq=False)
class Balance:
    """Balance of a build. `left_out` names what has no place; `placed` is the mass that has one."""

    placed: Figure
    left_out: tuple[str, ...]
    packs: tuple[PackBalance, ...]


@dataclass(frozen=True)
class _Placed:
    mass: Figure
    x: Figure
    y: Figure


def _mean(places: Sequence[Position]) -> Position:
    along = zip(*((p.x, p.y, p.z) for p in places), strict=True)
    x, y, z = (fsum(values) / len(places) for values in along)
    return Position(x, y, z)


def _rotors(build: Build) -> tuple[dict[str, Position], Where | None]:
    for frame in build.of_kind(Frame):
        if frame.part.motors:
            return dict(frame.part.motors), frame.shelf_where.at("motors")
    return {}, None


def _place(fitted: Fitted, rotors: Mapping[str, Position]) -> tuple[Position, Where] | None:
    """Where a part's own centre is: its place, the mean of its pieces' places, or the motors' for
    what turns.
    """
    if fitted.use.each_at:
        return _mean(fitted.use.each_at), fitted.where.at("each_at")
    if fitted.use.at is not None:
        return fitted.use.at, fitted.where.at("at")
    if isinstance(fitted.part, Motor | Propeller) and rotors:
        return _mean(tuple(rotors.values())), fitted.shelf_where
    return None


def _leaf(
    build: Build, key: str, label: str, value: float, axis: str, where: Where | None
) -> Figure:
    name = f"{build.name}/at/{key}/{axis}"
    about = f"Place of {label}, {_AXIS_WORDS[axis]}"
    return leaf(name, about, value, "m", own=PLACE_SPREAD, basis="estimate", where=where)


def _placed(
    build: Build, line: MassLine, key: str, place: Position, where: Where | None
) -> _Placed | None:
    if isinstance(line.line, Unknown):
        return None
    x = _leaf(build, key, line.label, place.x, "x", where)
    y = _leaf(build, key, line.label, place.y, "y", where)
    return _Placed(line.line, x, y)


def _centre(key: str, label: str, axis: str, parts: Sequence[_Placed]) -> MaybeFigure:
    inputs: list[MaybeFigure] = []
    for p in parts:
        inputs += [p.mass, p.x if axis == "x" else p.y]
    if not inputs:
        return Unknown(key, label, ("places of parts",))
    return apply(key, label, formula(centre_of_masses, centre_of_masses_partials), *inputs)


def _shares(
    build: Build,
    pack: str,
    rotors: Mapping[str, Position],
    middle: Position,
    along: MaybeFigure,
    across: MaybeFigure,
) -> dict[str, MaybeFigure]:
    """Each motor's share of the weight at hover; Unknown on a frame whose sides differ."""
    name = f"{build.name}/balance/{pack}/share"
    places = {k: (p.x - middle.x, p.y - middle.y) for k, p in rotors.items()}
    squares = []
    for i, axis in enumerate(_AXES):
        squared = fsum(p[i] ** 2 for p in places.values())
        words = f"Squared places of the rotors, {_AXIS_WORDS[axis]}"
        squares.append(constant(f"{build.name}/rotors/squares-{axis}", words, squared, "m²"))
    cross = fsum(x * y for x, y in places.values())
    lopsided = abs(cross) > 1e-6 * (squares[0].value + squares[1].value)
    count = constant(f"{build.name}/rotors/count", "Rotors", float(len(rotors)), "1")
    shares: dict[str, MaybeFigure] = {}
    for k, (x, y) in places.items():
        label = f"Share of the weight on motor {k}"
        if lopsided:
            shares[k] = Unknown(
                f"{name}-{k}",
                label,
                ("shares are worked out for frames alike left and right only",),
            )
            continue
        at = []
        for axis, place in (("x", x), ("y", y)):
            words = f"Motor {k}, {_AXIS_WORDS[axis]}"
            at.append(constant(f"{build.name}/rotors/{k}/{axis}", words, place, "m"))
        shares[k] = apply(
            f"{name}-{k}",
            label,
            formula(symmetric_hover_share),
            count,
            along,
            across,
            *at,
            *squares,
        )
    return shares


def _with_pack(
    build: Build,
    mass: MassTable,
    pack: str,
    parts: Sequence[_Placed],
    rotors: Mapping[str, Position],
) -> PackBalance | None:
    use = build.packs[pack]
    if use.middle is None:
        return None
    where = use.where.at("each_at" if use.use.each_at else "at")
    placed = _placed(build, mass.packs[pack], f"pack-{pack}", use.middle, where)
    if placed is None:
        return None
    middle = _mean(tuple(rotors.values()))
    name = f"{build.name}/balance/{pack}"
    offsets: dict[str, MaybeFigure] = {}
    for axis, value in (("x", middle.x), ("y", middle.y)):
        words = _AXIS_WORDS[axis]
        rotor = constant(
            f"{build.name}/rotors/middle-{axis}", f"Centre of the rotors, {words}", value, "m"
        )
        whole = _centre(
            f"{name}/centre-{axis}", f"Centre of mass with {pack}, {words}", axis, [*parts, placed]
        )
        about = f"Centre of mass off the rotors' centre with {pack}, {words}"
        offsets[axis] = difference(f"{name}/offset-{axis}", about, "m", whole, rotor)
    rest = total(
        f"{build.name}/balance/rest", "Weight of parts with a place", "kg", [p.mass for p in parts]
    )
    centre = _centre(
        f"{build.name}/balance/rest-x", "Centre of mass without battery, fore and aft", "x", parts
    )
    wanted = constant(
        f"{build.name}/rotors/middle-x", "Centre of the rotors, fore and aft", middle.x, "m"
    )
    about = f"Place of the battery {pack} that balances it"
    trim = apply(f"{name}/trim", about, formula(trim_place), wanted, rest, centre, placed.mass)
    shares = _shares(build, pack, rotors, middle, offsets["x"], offsets["y"])
    return PackBalance(pack, offsets["x"], offsets["y"], trim, placed.x, shares)


def balance(build: Build, mass: MassTable) -> Balance | None:
    """The balance with each pack that has a place; None without places of motors or of any part."""
    rotors, _ = _rotors(build)
    if len(rotors) < 3:
        return None
    parts: list[_Placed] = []
    left_out: list[str] = []
    for line in (*mass.lines, *mass.payload):
        fitted = build.parts.get(line.key)
        place = _place(fitted, rotors) if fitted is not None else None
        placed = _placed(build, line, line.key, place[0], place[1]) if place is not None else None
        if placed is None:
            left_out.append(line.label)
        else:
            parts.append(placed)
    if not parts:
        return None
    left_out += [f"battery {k}" for k, p in build.packs.items() if p.middle is None]
    packs = tuple(
        b for k in build.packs if (b := _with_pack(build, mass, k, parts, rotors)) is not None
    )
    placed_mass = total(
        f"{build.name}/balance/placed",
        "Weight of parts with a place",
        "kg",
        [p.mass for p in parts],
    )
    return Balance(placed_mass, tuple(left_out), packs)
