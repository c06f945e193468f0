"""Rules of the family law."""
