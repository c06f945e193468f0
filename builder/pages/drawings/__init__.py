"""Drawings of boards and wiring, in millimetres."""
