"""Wires to cut and leads to trim, as they lie on the bench: one line a wire, with its bare ends."""

from collections.abc import Iterator

from builder.compute.circuit.pinout import letters
from builder.compute.joints.bench_pieces import mm
from builder.compute.joints.joints import Joint
from builder.model.build import Build, WireRun
from builder.pages.blocks import Cell, Column, Inline, Row, Span, Swatch, Table, Tick, WriteIn
from builder.pages.sheet_input import SheetInput
from builder.rounding import rounded

_COLUMNS = (
    Column("Wire"),
    Column("From and to"),
    Column("Length", align="right"),
    Column("Bare ends", align="right"),
    Column("Cut", align="centre"),
    Column("As built"),
)


def _mm(metres: float) -> str:
    return f"{rounded(1000 * metres, 0)} mm"


def _ends(run: WireRun, joints: tuple[Joint, ...]) -> str:
    """How much is stripped at the first and at the second end."""
    strips = {j.contact: j.heat.strip for j in joints if any(w.wire is run.wire for w in j.wires)}
    found = [mm(strips[c]).removesuffix(" mm") for c in (run.start, run.end) if c in strips]
    return f"{' / '.join(found)} mm" if found else ""


def _line(wire: tuple[Inline, ...], what: str, length: str, bare: str, done: str) -> Row:
    """One wire or set of leads, with a box and room for what was done otherwise."""
    cells = (Cell(wire), *(Cell((Span(text),)) for text in (what, length, bare)))
    return Row(
        (
            *cells,
            Cell((Tick(f"cut-{what}", f"{done} {what}"),)),
            Cell((WriteIn(f"cut-built-{what}", "", "mm"),)),
        )
    )


def _bought(build: Build, joints: tuple[Joint, ...]) -> tuple[list[Row], str]:
    """Wires to cut, and how much of each kind they are together."""
    runs = [
        r
        for r in build.wires
        if r.wire.lead is None and r.wire.gauge is not None and r.wire.length is not None
    ]
    totals: dict[tuple[str, str], float] = {}
    rows = []
    for run in sorted(
        runs, key=lambda r: (r.wire.gauge.label if r.wire.gauge else "", r.wire.colour or "")
    ):
        gauge = run.wire.gauge.label if run.wire.gauge is not None else ""
        length = run.wire.length.value if run.wire.length is not None else 0.0
        colour = run.wire.colour or "any colour"
        totals[gauge, colour] = totals.get((gauge, colour), 0.0) + length
        words: tuple[Inline, ...] = (
            Swatch(colour, letters(colour)),
            Span(f" {gauge}".replace(" ", "\u00a0")),
        )
        rows.append(
            _line(words, f"{run.start} to {run.end}", _mm(length), _ends(run, joints), "cut")
        )
    return rows, _together(totals)


def _together(totals: dict[tuple[str, str], float]) -> str:
    """How much of each kind of wire is wanted, a sentence a thickness."""
    by_gauge: dict[str, list[str]] = {}
    for (gauge, colour), each in totals.items():
        by_gauge.setdefault(gauge, []).append(f"{colour} {_mm(each)}")
    said = [f"{gauge}: {', '.join(colours)}." for gauge, colours in by_gauge.items()]
    return " ".join(("Wire to have, before waste.", *said, "")) if said else ""


def _trims(build: Build, joints: tuple[Joint, ...]) -> list[Row]:
    """Fitted leads, those of one part that are trimmed alike in one line: each piece has room for its
    own length at its joint.
    """
    alike: dict[tuple[str, str, str], dict[str, int]] = {}
    for run in build.wires:
        if run.wire.trim_to is not None:
            key = (run.start.part, _mm(run.wire.trim_to.value), _ends(run, joints))
            pieces = alike.setdefault(key, {})
            pieces[run.start.board] = pieces.get(run.start.board, 0) + 1
    rows = [Row((Cell((Span("Leads to trim where they lie"),)),), kind="group")] if alike else []
    for (_, length, bare), pieces in alike.items():
        leads = "; ".join(_by_count(pieces))
        rows.append(_line((Span("fitted"),), f"leads: {leads}", length, bare, "trimmed"))
    return rows


def _by_count(pieces: dict[str, int]) -> Iterator[str]:
    """How many leads, and of which pieces: `3 each of motor.1, motor.2`."""
    for count in sorted(set(pieces.values())):
        names = [name for name, many in pieces.items() if many == count]
        yield f"{count}{' each' if len(names) > 1 else ''} of {', '.join(names)}"


def bench_cuts(sheet: SheetInput) -> Table | None:
    """All wires to cut by gauge and colour, then leads to trim; None without either."""
    rows, together = _bought(sheet.build, sheet.results.joints)
    rows += _trims(sheet.build, sheet.results.joints)
    if not rows:
        return None
    note = (
        f"{together}Cut at the bench, not from this list alone: dry-fit first. A lead can be shortened, never"
        " lengthened."
    )
    return Table("", _COLUMNS, tuple(rows), note=note)
