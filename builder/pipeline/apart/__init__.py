"""Jobs of a build that are made apart from its pages: guides, sources, files given along, swaps."""
