"""The beginning of a build: from a size, like another one, or from what was published."""
