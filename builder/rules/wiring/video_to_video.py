"""A video output wired to a video output, or an input left without a source.

Checks: a net with video contacts of more than one part has exactly one output.
Why: two outputs work against each other and no picture comes; two inputs alone show nothing.
Example: camera.VID to controller.VID-OUT.
Mend: camera output to board input, board output to video transmitter input.
Source: common practice, no source
"""

from collections.abc import Iterator

from builder.diagnostics.finding import Severity
from builder.rules.rule import Case, Found, Judged, Outcome
from builder.rules.wiring._nets import boards_apart, joined_nets, named, where_joined, with_roles

SEVERITY = Severity.FAULT


def check(case: Case) -> Iterator[Outcome]:
    for net in joined_nets(case):
        ends = with_roles(case, net, "video-out", "video-in")
        if not boards_apart(ends):
            continue
        outputs = with_roles(case, net, "video-out")
        if len(outputs) > 1:
            yield Found(
                f"Two video outputs meet: {named(outputs)}.",
                "An output goes to an input.",
                where_joined(case, outputs, net),
            )
        elif not outputs:
            yield Found(
                f"Video inputs without an output: {named(ends)}.",
                "An input is fed by an output.",
                where_joined(case, ends, net),
            )
        else:
            yield Judged()
