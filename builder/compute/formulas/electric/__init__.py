"""Formulas of packs, wires, capacitors and supplies."""
