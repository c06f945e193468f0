"""What the order of work is made of: steps, constraints with their reasons, and the collection they
are gathered in.
"""

from dataclasses import dataclass, field
from enum import IntEnum

from builder.compute.figures.told import WordsOrTold
from builder.compute.joints.joints import Joint
from builder.frozen import value_class


class Phase(IntEnum):
    """The usual order of a bench (common practice, no source). It only breaks ties; constraints are
    said one by one.
    """

    ACCEPT = 0
    DRY = 1
    CONNECTOR = 2
    BATTERY = 3
    GATE_FEED = 4
    MOTORS = 5
    LEADS = 6
    CONTROL = 7
    GATE_RAILS = 8
    LOADS = 9
    GATE_LOADS = 10
    COVER = 11
    SET = 12
    COAT = 13
    CLOSE = 14
    LAST = 15


# The step of the gate with the frame closed. What is said of all gates before that (`gate A`)
# leaves it out by its name.
LAST_GATE = "last gate"
_STAGE: dict[int, int] = {Phase.CONNECTOR: Phase.BATTERY}


@value_class(frozen=True, slots=True)
class Measure:
    """Something to read and write down: between what, what is expected, in which unit.

    `count` is how many readings go into its field. `ohms` is what the part's facts say of each of
    them (Ω); None where nobody says it.
    """

    label: str
    expect: str
    unit: str = ""
    count: int = 1
    ohms: float | None = None


@value_class(frozen=True, eq=False)
class WorkStep:
    """One line of the order of work.

    `board`, `side`, `tip` and `iron` (°C) are what changes are counted in; '' and 0 mean that the
    step leaves them as they are. `own` is the place of a step among the builder's own. `power` is
    what feeds the aircraft during a step that is done under power, 'usb' or 'battery'; such a step
    ends with the power off, so no power is on between steps. `place` are the words of its text that
    say where its piece goes: like steps differ in them.
    """

    id: str
    do: str
    text: WordsOrTold
    phase: int
    board: str = ""
    side: str = "top"
    tip: str = ""
    iron: int = 0
    joint: Joint | None = None
    gate: str = ""
    measures: tuple[Measure, ...] = ()
    own: int | None = None
    part: str = ""
    power: str = ""
    place: str = ""

    @property
    def stage(self) -> int:
        """Its stage: phases that are worked on together are one."""
        return _STAGE.get(self.phase, self.phase)


@value_class(frozen=True, eq=False)
class StepGroup:
    """What is one step for the hand: steps that follow each other, in words that hold for all.

    Its name is made of what is done to which device. A step or gate that stands alone is a group
    of one, with its own name and words.
    """

    id: str
    text: WordsOrTold
    steps: tuple[WorkStep, ...]

    @property
    def gate(self) -> str:
        """The letter of the gate that it is; '' for a step."""
        return self.steps[0].gate


class Why(IntEnum):
    """What stands behind a constraint, the softest first: of our own that contradict each other the
    softest is dropped.
    """

    EASE = 0  # it saves work or material
    NEED = 1  # otherwise it cannot be done, or has to be done again
    SAFETY = 2  # otherwise somebody is hurt or a part burns
    BUILDER = 3  # a `before` or `after` of the builder's own


@value_class(frozen=True, slots=True)
class Constraint:
    """`before` comes before `after`, the reason in words, and what stands behind it."""

    before: str
    after: str
    reason: str
    why: Why = Why.NEED


@dataclass
class Gathered:
    """Steps and constraints while they are gathered. Local to a call."""

    steps: dict[str, WorkStep] = field(default_factory=dict)
    constraints: list[Constraint] = field(default_factory=list)

    def add(self, step: WorkStep) -> None:
        """Keeps a step under its name."""
        self.steps[step.id] = step

    def need(self, before: str, after: str, reason: str, why: Why = Why.NEED) -> None:
        """One step before another, where both exist."""
        if before in self.steps and after in self.steps and before != after:
            self.constraints.append(Constraint(before, after, reason, why))

    def named(self, *beginnings: str) -> list[str]:
        """Names of steps that begin so."""
        return [s for s in self.steps if s.startswith(beginnings)]
