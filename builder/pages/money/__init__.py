"""What a build costs, and what to order for it."""
