"""Figures: numbers that know where they came from, and what is gathered of them."""
