"""Rules of the family setup."""
