"""Formulas of mass and fit."""
