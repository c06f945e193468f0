"""The names in a build, each looked up: a part of the shelf, a piece, a contact, a socket."""

from collections.abc import Mapping, Set
from dataclasses import replace

from builder.diagnostics.finding import Collector, mistake
from builder.diagnostics.nearest import did_you_mean
from builder.diagnostics.where import Where
from builder.model.build import (
    Contact,
    Fitted,
    ShelfEntry,
)
from builder.model.follow.nearest_pad import which_pad
from builder.model.source.build_source import BuildSource
from builder.model.trees.variants import Merged

ShelfEntries = Mapping[str, ShelfEntry]


class BuildNames:
    """Looks up the names of one build and keeps what it misses; local to a call."""

    def __init__(
        self, merged: Merged, source: BuildSource, shelf: ShelfEntries, broken: Set[str]
    ) -> None:
        self.merged, self.source, self.shelf, self.broken = merged, source, shelf, broken
        self.found = Collector()
        self.parts: dict[str, Fitted] = {}

    def where(self, *path: str | int) -> Where:
        """The place of a value of this build."""
        return self.merged.origins.where(path)

    def say(self, code: str, problem: str, hint: str, where: Where, *see: Where) -> None:
        """Keeps a mistake."""
        self.found.add(replace(mistake(code, problem, hint, where), see=see))

    def entry(self, name: str, where: Where) -> ShelfEntry | None:
        """The shelf's entry, or a mistake (said once, by the shelf, where the entry itself cannot
        be read).
        """
        if name in self.shelf:
            return self.shelf[name]
        if name in self.broken:
            problem = f"The shelf's entry {name!r} cannot be read, so this build cannot either."
            self.say("data/broken-part", problem, "Fix the entry on the shelf.", where)
        else:
            self.say(
                "data/not-on-shelf",
                f"{name!r} is not on the shelf.",
                did_you_mean(name, self.shelf),
                where,
            )
        return None

    def piece(self, text: str, where: Where) -> tuple[Fitted, int, str] | None:
        """`motor.1.A` as (motor, 1, 'A'); the last step may hold dots only after part and piece are
        taken.
        """
        key, dot, rest = text.partition(".")
        fitted = self.parts.get(key)
        if not dot or not rest:
            self.say(
                "data/no-such-contact",
                f"{text!r} does not name a contact.",
                "Write part.contact, like 'camera.5V'.",
                where,
            )
            return None
        if fitted is None:
            self.check_part(key, where)
            return None
        piece = 0
        if fitted.use.count > 1:
            number, dot, rest = rest.partition(".")
            counted = number.isdecimal() and len(number) < 7 and bool(dot)
            if not counted or not 1 <= int(number) <= fitted.use.count:
                problem = f"{text!r} does not say which {key} is meant."
                if counted:
                    problem = f"There is no {key} {number}: this build has {fitted.use.count}."
                hint = f"Write {key}.1.… to {key}.{fitted.use.count}.…"
                of_count = self.where("parts", key, "count")
                self.say("data/no-such-contact", problem, hint, where, of_count)
                return None
            piece = int(number)
        return fitted, piece, rest

    def check_part(self, key: str, where: Where) -> None:
        """Says that this build has no such part, where it has none."""
        parts = self.source.parts
        if key not in parts:
            problem = f"This build has no part {key!r}."
            self.say("data/no-such-part", problem, did_you_mean(key, parts), where)

    def wired(self, board: str) -> frozenset[str]:
        """Pads of one piece, given as `camera.` or `motor.1.`, that wires name."""
        ends = (end for wire in self.source.wires for end in (wire.from_, wire.to))
        return frozenset(end.removeprefix(board) for end in ends if end.startswith(board))

    def contact(self, text: str, where: Where) -> Contact | None:
        """The contact that a text names, or None, which is said."""
        found = self.piece(text, where)
        if found is None:
            return None
        fitted, piece, pad = found
        if pad not in fitted.part.pads:
            self.say(
                "data/no-such-contact",
                f"{fitted.key} ({fitted.shelf}) has no pad {pad!r}.",
                which_pad(pad, fitted.part, self.wired(text.removesuffix(pad))),
                where,
            )
            return None
        return Contact(fitted.key, piece, pad)

    def socket_end(self, text: str, where: Where) -> tuple[str, int, str] | None:
        """Part, piece and socket that a text names, or None, which is said."""
        found = self.piece(text, where)
        if found is None:
            return None
        fitted, piece, name = found
        if name not in fitted.part.sockets:
            self.say(
                "data/no-such-socket",
                f"{fitted.key} ({fitted.shelf}) has no socket {name!r}.",
                did_you_mean(name, fitted.part.sockets),
                where,
            )
            return None
        return fitted.key, piece, name
