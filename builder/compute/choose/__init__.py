"""What the parts of the shelf could make of a build: what may be swapped, the build that it makes, and its figures."""
