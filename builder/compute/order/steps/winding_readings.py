"""What is measured of the windings of motors: what their entries say of them, and what counts where a
hand meter shows less than it could tell apart.
"""

from builder.compute.order.steps.work_step import Measure
from builder.model.build import Build, FittedAs
from builder.model.kinds import Motor

_TO_BASE = Measure("phase to base", "open", "Ω")


def winding_ohms(motor: Motor) -> float | None:
    """Resistance between two leads of a motor (Ω); None where its entry does not say it."""
    best = motor.resistance.best() if motor.resistance is not None else None
    return best[1].value if best is not None else None


def common_winding(build: Build) -> float | None:
    """What every winding of the build has (Ω); None where one is not known, or they differ."""
    found = {winding_ohms(f.part) for f in build.of_kind(Motor)}
    return found.pop() if len(found) == 1 else None


def winding_readings(motor: FittedAs[Motor], piece: str) -> tuple[str, tuple[Measure, ...]]:
    """How the windings of a piece are measured as it comes, with a field for what is read. Common
    practice, no source.
    """
    ohms = winding_ohms(motor.part)
    leads = "Subtract what the probes read when held together."
    if motor.part.phases == 2:
        expect = "a few ohms, not known how many" if ohms is None else ""
        one = Measure("lead to lead", expect, "Ω", ohms=ohms)
        return f"Spin {piece} by hand and measure its winding. {leads}", (one, _TO_BASE)
    text = (
        f"Spin {piece} by hand and measure its phases. {leads} Pairs that differ by the meter's last"
        " digit are alike."
    )
    expect = "about equal; how many ohms is not known" if ohms is None else "alike"
    return text, (Measure("three pairs of phases", expect, "Ω", 3, ohms), _TO_BASE)
