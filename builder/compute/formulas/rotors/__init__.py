"""Formulas of air, rotors and motors on the bench."""
