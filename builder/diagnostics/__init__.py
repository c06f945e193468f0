"""Findings: what was found, where, and how to fix it. Known by every stage, knows none."""
