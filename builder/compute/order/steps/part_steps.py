"""A step for the frame, and one for each part that no other step fits, so that the steps hold all
that flies.
"""

from collections.abc import Iterable, Iterator

from builder.compute.geometry.plate_words import plate_below
from builder.compute.geometry.screw_layers import named_layers
from builder.compute.geometry.seat_words import seat_words
from builder.compute.joints.bench_pieces import frame_of
from builder.compute.order.steps.cover_parts import (
    LATE,
    NOT_FLYING,
    is_late,
    lies_over,
    says,
)
from builder.compute.order.steps.screw_steps import NOT_LISTED, SORTED_BEFORE, frame_id, goes_to
from builder.compute.order.steps.work_step import Phase, WorkStep
from builder.model.build import Build, Fitted
from builder.model.kinds import Cable, Frame, Hardware, Payload


def has_strap(build: Build) -> bool:
    """Whether a strap holds the battery."""
    return any(h.part.form == "strap" for h in build.of_kind(Hardware))


def frame_steps(build: Build) -> Iterator[WorkStep]:
    """The frame, so far that motors and boards can be mounted. Screws that the build lists for it
    are said by `with_screws`; where it lists none, that they are not known.
    """
    listed = {goes_to(build, place, ()) for place in build.screws}
    for f in build.of_kind(Frame):
        name = frame_id(f.key)
        text = f"Put {f.part.name} together, but leave its top open."
        if name not in listed:
            text = (
                f"If in pieces, put {f.part.name} together by its maker's sheet, top open."
                " Screws: not known."
            )
        yield WorkStep(name, "mount", text, Phase.MOTORS, f.key)


def _is_named(build: Build, fitted: Fitted, steps: Iterable[WorkStep]) -> bool:
    """Whether some step fits, joins, plugs or carries a part."""
    part = fitted.part
    if isinstance(part, Frame | Payload):
        return True  # it is what all is mounted on; a payload is put on for the scale
    if isinstance(part, Cable) and any(p.plug.use == fitted.key for p in build.plugs):
        return True
    own = {(s.part or "").split(".")[0] for s in build.source.steps}
    own |= {name for s in build.source.steps for name in (*s.covers, *s.coats)}
    if fitted.key in own or any(p.screw.use == fitted.key for p in build.screws):
        return True
    for step in steps:
        if fitted.key in {token.split(".")[0] for token in step.id.split()}:
            return True
        if step.id == "screws" and getattr(part, "form", None) in SORTED_BEFORE:
            return True
        if step.id == "propellers" and part.KIND == "propeller":
            return True
        if step.id.startswith("slide ") and getattr(part, "form", None) == "sleeve":
            return True
    return False


def _fit(build: Build, fitted: Fitted) -> WorkStep:
    """The step of a part that no other step fits."""
    name, count = fitted.part.name, fitted.count
    what = name if count == 1 else f"{count} × {name}"
    late, plate = lies_over(fitted), plate_below(build, fitted)
    place = "its place" if count == 1 else "their places"
    text = f"Fit {what} in {place}{seat_words(build, fitted)}."
    phase = Phase.CLOSE if late else Phase.LOADS
    if isinstance(fitted.part, Hardware) and fitted.part.form == "strap":
        text = f"Thread {what} through the {plate or 'frame'}, without a battery."
        phase = Phase.COVER
    elif is_late(plate) and not late:
        text = f"{text} The {plate} may lie beside the frame for this."
    if fitted.use.note:
        text = f"{text} Its builder notes: {fitted.use.note.rstrip('.')}."
    elif late and not _screwed(build):
        text = f"{text} What holds it {NOT_LISTED}"
    return WorkStep(f"fit {fitted.key}", "mount", text, phase, frame_of(build), part=fitted.key)


def _screwed(build: Build) -> bool:
    """Whether the step that closes the frame says screws of a cover."""
    closing = (p for p in build.screws if goes_to(build, p, ()) == "close")
    return any(says(named_layers(p), LATE) for p in closing)


def loose_parts(build: Build, steps: list[WorkStep]) -> Iterator[WorkStep]:
    """A step for each part that flies and that no step names."""
    for fitted in build.parts.values():
        if isinstance(fitted.part, NOT_FLYING):
            continue
        if not _is_named(build, fitted, steps):
            yield _fit(build, fitted)
