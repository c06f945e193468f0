"""Keeping it flying: checklists from the parts, spares, and the history of what broke and what was done."""

from builder.model.build import Build
from builder.model.kinds import Antenna, Frame, Motor, Propeller
from builder.pages.blocks import Block, Bullets, Column, Inline, Row, Section, Span, Table, Tick
from builder.pages.numbers import cell, money
from builder.pages.sheet_input import SheetInput


def _ticked(stage: str, lines: list[str]) -> Bullets:
    items: list[tuple[Inline, ...]] = [(Tick(f"upkeep-{stage}-{i}"), Span(line)) for i, line in enumerate(lines, 1)]
    return Bullets(tuple(items))


def _first(build: Build) -> list[str]:
    motors = sum(f.count for f in build.of_kind(Motor))
    out = ["After 30 s of hover: land, unplug the pack, then go on."]
    if motors:
        out.append(f"Each of the {motors} motors can be held; one hotter than the rest is looked at.")
        out.append("Motor and frame screws are tight again, and no screw end touches a winding.")
    out.append("The pack's lead and connector are no more than hand-warm.")
    return out


def _early(build: Build) -> list[str]:
    out = ["Screws of the frame and the boards are tight; thread lock where metal meets metal."]
    if build.of_kind(Propeller):
        out.append("Propellers: no nick, no white bend line, seated fully; a damaged one is thrown away.")
    out.append("Charge used is noted in the log beside the time in the air.")
    if build.packs:
        out.append("Packs: no swelling, no dent, no torn wrap; a puffed or dented pack is not charged again.")
    return out


def _tenth(build: Build) -> list[str]:
    out = []
    if build.of_kind(Motor):
        out.append("Motor bells: no play along or across the shaft, no grit when turned by hand.")
    if build.of_kind(Propeller):
        out.append("Propeller nuts or screws: tight, locking part of the nut still grips.")
    out += [f"{f.part.name}: sits where it did, cable not chafed, its end not cut." for f in build.of_kind(Antenna)]
    if build.of_kind(Frame):
        out.append("Frame: arms without cracks or loose layers; edges of the strap slots smooth.")
    if build.packs:
        out.append("Strap: stitching and grip sound. Joints of the pack's lead: no crack, no grey, no loose strand.")
    out += [f"Pack {p.key}: resistance of each cell written down; one far above its fellows retires the pack."
            for p in build.packs.values()]  # fmt: skip
    return out


_CRASH = [
    "Disarm, walk up from behind, unplug the pack before anything else is touched.",
    "A pack that was hit is put down outdoors, on bare ground, and watched for half an hour; a dented one is not used.",
    "Every propeller is replaced or looked at against the light.",
    "Arms, screws and standoffs: no crack, no bend. Motors turn freely and run true.",
    "Wires and plugs: none pulled, none bare. Antenna and its socket still joined, before the transmitter has power.",
    "The first-power-up gates are gone through again, through the current limiter, propellers off.",
]


def _spares(build: Build) -> Table | None:
    rows = tuple(
        Row((cell(f.part.name), cell(str(f.use.spares)), cell(str(f.count))))
        for f in build.parts.values()
        if f.use.spares
    )
    heads = (Column("Spare"), Column("In the box", align="right"), Column("Fitted", align="right"))
    return Table("Spares", heads, rows) if rows else None


def _history(build: Build) -> Table | None:
    """Incidents and maintenance by date, with cost and what each did to the weight, as the builder wrote them."""
    broke = [
        (i.date, Row((cell(i.date.isoformat()), cell("broke"), cell(i.what, note=i.note or ""),
                      cell(", ".join(i.replaced) or "nothing"), cell(money(i.cost) if i.cost else "not noted"),
                      cell(i.mass or "not noted"))))
        for i in build.source.incidents
    ]  # fmt: skip
    done = [
        (m.date, Row((cell(m.date.isoformat()), cell("done"), cell(m.what, note=m.note or ""),
                      cell(f"at flight {m.flights}" if m.flights is not None else ""),
                      cell(money(m.cost) if m.cost else "not noted"), cell(""))))
        for m in build.source.maintenance
    ]  # fmt: skip
    if not broke and not done:
        return None
    heads = (
        Column("Date"),
        Column("Kind"),
        Column("What"),
        Column("Replaced, or when"),
        Column("Cost", align="right"),
        Column("Weight", align="right"),
    )
    return Table("History", heads, tuple(row for _, row in sorted(broke + done, key=lambda p: p[0])), stack=True)


def upkeep(sheet: SheetInput) -> Section:
    """Checklists after 30 s, in the first flights, every tenth flight, after a crash; spares and history."""
    build = sheet.build
    parts: list[Block | Section] = []
    for anchor, heading, lines in (
        ("upkeep-first", "After the first 30 seconds", _first(build)),
        ("upkeep-early", "After flights 1 to 3", _early(build)),
        ("upkeep-tenth", "After every tenth flight", _tenth(build)),
        ("upkeep-crash", "After a crash", _CRASH),
    ):
        parts.append(Section(anchor, heading, (_ticked(anchor.removeprefix("upkeep-"), lines),), level=3))
    tables = [t for t in (_spares(build), _history(build)) if t is not None]
    if tables:
        parts.append(Section("upkeep-history", "Spares and history", tuple(tables), level=3))
    return Section("upkeep", "Keeping it flying", tuple(parts))
