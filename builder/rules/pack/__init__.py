"""Rules of the family battery."""
