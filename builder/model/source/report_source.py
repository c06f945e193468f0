"""A report of somebody who built a published build, as it is written: a file from a stranger."""

from pydantic import Field

from builder.model.values.base import Frozen
from builder.model.values.bounds_of_bodies import PartMass
from builder.model.values.quantities import Text


class ReportOf(Frozen):
    """Which build a report is about."""

    of: Text
    title: Text = ""
    digest: Text = ""


class ReportSource(Frozen):
    """A report as it is written. `digest` is that of all its other words, '' where there is none."""

    report: ReportOf
    digest: Text = ""
    by: Text
    build: Text = ""
    pieces: dict[str, tuple[PartMass, ...]] = Field(default_factory=dict)
    found: tuple[Text, ...] = ()
