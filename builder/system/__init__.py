"""What differs between operating systems: one module for each matter, each with its other way."""
