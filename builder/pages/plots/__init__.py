"""Plots: axes, curves, dots, bars."""
