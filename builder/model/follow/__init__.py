"""The names of a build followed to what they mean: parts, contacts, sockets, and what contradicts."""
