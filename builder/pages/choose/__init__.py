"""What the shelf could make of a build, as words, a table and a picture."""
