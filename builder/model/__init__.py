"""Nodes become frozen objects in SI units; variants are resolved and references followed."""
