"""Two builds, or a build with a part swapped, held against each other."""
