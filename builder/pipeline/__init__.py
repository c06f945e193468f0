"""Every stage in order, like a table of contents."""

from builder.pipeline.check import Checked, check, judged, judged_alone, read

__all__ = ["Checked", "check", "judged", "judged_alone", "read"]
