"""A step-down rail whose input falls too low.

Checks: the pack's landing volts against what each rail needs at its input (min_in, or its volts plus its dropout).
Why: the rail sags with the pack, and picture or link go first.
Example: a 9 V rail that needs 10.5 V, on three cells.
Mend: land earlier, or take a rail that holds.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    packs = case.results.power.packs
    for row in case.results.power.rails:
        rail = row.source.rail
        if rail is None or not row.supplied or rail.converter in ("step-up", "switch", "direct"):
            continue
        fitted = case.build.parts[row.source.part.split(".")[0]]
        if rail.min_in is not None:
            need = rail.min_in.value
        elif rail.dropout is not None:
            need = row.volts + rail.dropout.value
        else:
            yield NotJudged(
                f"input volts that {row.source.label} needs", fitted.shelf_where.at("rails", row.source.name)
            )
            continue
        for pack in packs:
            if pack.nominal < need:
                yield Found(
                    f"{row.source.label} needs {need:g} V, and pack {pack.key} gives {pack.nominal:.1f} V.",
                    "Take more cells, or another rail.",
                    case.build.packs[pack.key].where,
                )
            elif pack.landing < need:
                yield Found(
                    f"{row.source.label} needs {need:g} V; pack {pack.key} is landed at {pack.landing:.1f} V.",
                    "Land earlier.",
                    case.build.packs[pack.key].where,
                    severity=Severity.REMARK,
                )
            else:
                yield Judged()
