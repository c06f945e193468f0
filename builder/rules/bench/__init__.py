"""Rules of the family bench."""
