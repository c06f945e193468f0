"""Geometry: clearances, screws, the height of stacks."""
