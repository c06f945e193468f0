"""The workspace's table of channels, and what may be sent where it is flown."""

from dataclasses import dataclass

from builder.model.build import Build
from builder.model.site import Allowed


def ranges_for(build: Build, serves: str) -> tuple[Allowed, ...]:
    """What may be sent for video or control where it is flown."""
    return tuple(a for a in build.site.allowed if a.serves in (serves, "both"))


@dataclass(frozen=True)
class ChannelRow:
    """One channel of the workspace's table: middle (Hz), whether video may be sent there, whether
    the build does.
    """

    band: str
    number: str
    frequency: float
    allowed: bool
    used: bool


def channels(build: Build) -> tuple[ChannelRow, ...]:
    """The whole table, band by band, as site.yaml has it."""
    use, ranges = build.source.setup.channel, ranges_for(build, "video")
    used = (use.band, str(use.number)) if use is not None else None
    out = []
    for band, table in build.site.bands.items():
        for number, middle in table.items():
            allowed = any(a.from_.value <= middle.value <= a.to.value for a in ranges)
            out.append(ChannelRow(band, number, middle.value, allowed, used == (band, number)))
    return tuple(out)
