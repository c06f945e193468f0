"""Trees of the source as objects: fields read, what variants take over, which mistakes are said."""
