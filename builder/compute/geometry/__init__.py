"""Geometry: bodies in space, clearances, screws, the height of stacks."""
