"""More load than USB gives.

Checks: all parts on the rails that USB feeds, with the board's own draw, against what USB gives:
500 mA unless the board says other.
Why: the board resets while it is being set up, or the computer's port switches off.
Example: a video unit of 600 mA on a 5 V rail that USB feeds.
Mend: set up with that load unplugged, or feed it from a rail that USB does not.
Source: USB 2.0 specification, 7.2.1 (500 mA for one port) (from memory)
"""

from collections.abc import Iterator
from math import fsum

from builder.compute.circuit.rails import RailRow
from builder.diagnostics.finding import Severity
from builder.model.build import Fitted
from builder.rules.power._usb import given_by_usb, on_usb
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome
from builder.rules.say import given, made, say

SEVERITY = Severity.REMARK


def _own(board: Fitted) -> float:
    draw = board.part.supply.draw if board.part.supply is not None else None
    return draw.typical.value if draw is not None and draw.typical is not None else 0.0


def check(case: Case) -> Iterator[Outcome]:
    fed: dict[str, list[RailRow]] = {}
    for row in case.results.power.rails:
        board = case.build.parts[row.source.part.split(".")[0]]
        if not row.supplied:
            continue
        answer = on_usb(board, row)
        if answer is None:
            yield NotJudged(
                f"whether USB feeds {row.source.label}",
                board.shelf_where.at("rails", row.source.name),
            )
        elif answer:
            fed.setdefault(row.source.part, []).append(row)
        else:
            yield Judged()
    for name, rows in fed.items():
        board = case.build.parts[name.split(".")[0]]
        load = fsum(r.typical.value for r in rows) + _own(board)
        gives = min(given_by_usb(board, r) for r in rows)
        if load > gives:
            yield Found(
                say(
                    "On USB, {} and the board take {} of {}.",
                    ", ".join(r.source.label for r in rows),
                    made(load, "A", rows[0].typical.key if len(rows) == 1 else ""),
                    given(gives, "A"),
                ),
                "Unplug a load while it is set up on USB.",
                board.where,
            )
            continue
        unknown = [part for row in rows for part in row.unknown]
        if not unknown:
            yield Judged()
        for part in unknown:
            yield NotJudged(f"current of {part}", case.build.parts[part.split(".")[0]].shelf_where)
