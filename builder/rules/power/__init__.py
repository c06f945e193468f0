"""Rules of the family power."""
