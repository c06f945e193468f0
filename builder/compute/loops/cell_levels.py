"""A volt at each contact of a battery: how many cells lie below it, also on the balance leads of
batteries that are joined. In series the second battery's balance lead begins where the first one
ends, so which battery a balance lead belongs to decides.
"""

from dataclasses import dataclass

from builder.compute.circuit.battery_levels import is_balance_lead
from builder.compute.circuit.nets import Netlist
from builder.compute.loops.series import said_in_series
from builder.model.build import Build, Contact, FittedPack
from builder.model.kinds import Connector


@dataclass(frozen=True)
class CellLevel:
    """Cells below a contact, counted from the lowest minus of the aircraft; or from the minus of a
    balance lead (`above`) of which nobody says to which battery it belongs.
    """

    cells: int
    above: str = ""

    def over(self, lower: "CellLevel") -> int | None:
        """Cells between two contacts; None where they are counted from unlike places."""
        return self.cells - lower.cells if self.above == lower.above else None


@dataclass(frozen=True)
class CellLevels:
    """The cells below the contacts of one kind of battery of a build."""

    build: Build
    nets: Netlist
    cells: int  # of one battery
    series: int

    def below(self, contact: Contact) -> CellLevel | None:
        """Cells below a contact of a connector that is a supply or a ground; None where nobody says,
        and for any other contact.
        """
        part, pad = self.build.parts[contact.part].part, self.build.pad(contact)
        if not isinstance(part, Connector) or pad.role not in ("supply", "ground"):
            return None
        if is_balance_lead(part):
            return self._tapped(contact)
        name = self.nets.of[contact].name
        if self.nets.levels.steps == said_in_series(self.build) and name in self.nets.levels.below:
            return CellLevel(self.nets.levels.below[name] * self.cells)
        return CellLevel(0 if pad.role == "ground" else self.cells * self.series)

    def _tapped(self, contact: Contact) -> CellLevel | None:
        """A contact of a balance lead: what its battery stands on, and the cells of its own."""
        pad = self.build.pad(contact)
        tap = 0 if pad.tap is None and pad.role == "ground" else pad.tap
        if tap is None:
            return None
        foot = self._foot(contact)
        return CellLevel(tap, contact.board) if foot is None else CellLevel(foot + tap)

    def _foot(self, contact: Contact) -> int | None:
        """Cells below the battery that a balance lead belongs to; None where nobody says it."""
        if self.nets.levels.steps < 2:
            return 0 if self.series == 1 else None
        fitted = self.build.parts[contact.part]
        named = fitted.use.same_battery
        number = max(contact.piece or 1, 1) - 1
        if number >= len(named):
            return None
        plug = next((p for p in self.nets.levels.plugs if p.board == named[number]), None)
        if plug is None:
            return None
        return self.nets.levels.below[self.nets.of[plug.minus].name] * self.cells


def cell_levels(build: Build, nets: Netlist, pack: FittedPack) -> CellLevels | None:
    """The cells below the contacts of a battery; None where nobody says its cells."""
    one = pack.part.cells
    if one is None:
        return None
    return CellLevels(build, nets, one.low, pack.use.series)
