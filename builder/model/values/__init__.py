"""Values: text with a unit becomes a number in SI."""
