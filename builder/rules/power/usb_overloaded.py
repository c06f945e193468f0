"""Dead or overloaded on USB.

Checks: what hangs on rails that USB feeds against what USB gives to the board (500 mA unless the board says other).
Why: the board resets while it is being set up, or the computer's port switches off.
Example: a video unit of 600 mA on a 5 V rail that USB feeds.
Mend: set up with that load unplugged, or feed it from a rail that USB does not.
Source: USB 2.0 specification, 7.2.1 (500 mA for one port) (from memory)
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, NotJudged, Outcome

SEVERITY = Severity.REMARK
_USB = 0.5


def check(case: Case) -> Iterator[Outcome]:
    for row in case.results.power.rails:
        rail = row.source.rail
        if rail is None or not row.supplied:
            continue
        fitted = case.build.parts[row.source.part.split(".")[0]]
        if rail.on_usb is None:
            yield NotJudged(f"whether USB feeds {row.source.label}", fitted.shelf_where.at("rails", row.source.name))
            continue
        if not rail.on_usb:
            yield Judged()
            continue
        given = rail.usb_limit.value if rail.usb_limit is not None else _USB
        own = fitted.part.supply.draw.typical.value if fitted.part.supply and fitted.part.supply.draw.typical else 0.0
        if row.typical.value + own > given:
            yield Found(
                f"On USB, {row.source.label} is loaded with {row.typical.value + own:.2f} A of {given:g} A.",
                "Unplug a load while it is set up on USB.",
                fitted.where,
            )
        else:
            yield Judged()
