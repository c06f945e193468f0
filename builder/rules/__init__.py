"""Judges a build: faults, remarks, cautions and what could not be judged. Changes nothing."""
