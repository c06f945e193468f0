"""Rules of the family pack."""
