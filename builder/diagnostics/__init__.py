"""Findings: what was found, where, and how to mend it. Known by every stage, knows none."""
