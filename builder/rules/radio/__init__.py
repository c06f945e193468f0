"""Rules of the family radio."""
