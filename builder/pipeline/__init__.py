"""Every stage in order, like a table of contents."""

from builder.pipeline.check import Checked, check_workspace, judged, judged_alone, read

__all__ = ["Checked", "check_workspace", "judged", "judged_alone", "read"]
