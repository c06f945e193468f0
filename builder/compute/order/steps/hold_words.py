"""What holds a part in its place: its builder's note, or that nobody says it."""

from builder.compute.order.steps.screw_steps import NOT_LISTED
from builder.model.build import Build, Fitted


def _said_by_a_step(build: Build, key: str) -> bool:
    """Whether a step of the builder's own fastens a part, or what carries it."""
    fastening = [s for s in build.source.steps if s.do in ("fit", "mount")]
    named = {(s.part or "").split(".")[0] for s in fastening}
    return key in named or any(f"mount {key}" in s.before for s in fastening)


def _screwed_on(build: Build, key: str) -> bool:
    return any((p.screw.into or "").split(".")[0] == key for p in build.screws)


def hold_words(build: Build, fitted: Fitted) -> str:
    """What holds a part, as a sentence; '' where its screws or a step of the builder's own say it."""
    if fitted.use.note:
        return f"Its builder notes: {fitted.use.note.rstrip('.')}."
    if _screwed_on(build, fitted.key) or _said_by_a_step(build, fitted.key):
        return ""
    return f"What holds it {NOT_LISTED}"
