"""Rules of the family data."""
