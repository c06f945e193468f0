"""Rules of the family wiring."""
