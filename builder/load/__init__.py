"""Reads `builds/`: every scalar stays text, and every value knows its file, line and column."""
