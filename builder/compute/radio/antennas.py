"""Which antenna belongs to which radio."""

from builder.model.build import Build, FittedAs
from builder.model.kinds import Antenna, VideoTransmitter


def video_antenna(
    build: Build, sender: FittedAs[VideoTransmitter] | None
) -> FittedAs[Antenna] | None:
    """The antenna on the video transmitter: by its range or its name in the build, where there are
    several.
    """
    found = build.of_kind(Antenna)
    named = [f for f in found if "video" in f.key]
    if named:
        return named[0]
    if len(found) != 1 or sender is None:
        return None
    only = found[0]
    coax, other = getattr(only.part, "coax", None), getattr(sender.part, "coax", None)
    if coax is not None and other is not None and coax.type != other.type:
        return None
    return only


def control_antenna(build: Build) -> FittedAs[Antenna] | None:
    """The antenna on the receiver of the control link: the one antenna that is not the video
    transmitter's.
    """
    video = video_antenna(build, next(iter(build.of_kind(VideoTransmitter)), None))
    others = [f for f in build.of_kind(Antenna) if video is None or f.key != video.key]
    named = [f for f in others if "control" in f.key or "receiver" in f.key or "rx" in f.key]
    if named:
        return named[0]
    return others[0] if len(others) == 1 else None
