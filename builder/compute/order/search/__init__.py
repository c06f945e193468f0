"""The search for the order of work with the fewest changes."""
